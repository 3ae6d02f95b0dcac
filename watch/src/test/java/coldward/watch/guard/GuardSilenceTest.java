package coldward.watch.guard;

import static coldward.watch.guard.FanState.CONTRADICTED;
import static coldward.watch.guard.FanState.DOUBTED;
import static coldward.watch.guard.FanState.RESTING;
import static coldward.watch.guard.FanState.STARTING;
import static coldward.watch.guard.FanState.TRIPPED;
import static coldward.watch.guard.FanState.TURNING;
import static coldward.watch.guard.FanState.UNHEARD;
import static coldward.watch.guard.GuardRun.S;
import static coldward.watch.guard.GuardRun.ns;
import static coldward.watch.guard.GuardRun.responding;
import static coldward.watch.guard.GuardRun.settings;
import static coldward.watch.guard.GuardRun.turning;
import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.shop.ReadName;
import coldward.watch.guard.Effect.Matter;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

class GuardSilenceTest {

    @Test
    void a_turning_fan_that_falls_silent_is_told_once() {
        GuardRun run = turning(settings());
        assertThat(run.tick(9.999)).isEqualTo(TURNING);
        assertThat(run.guard.wakeAt(run.state)).hasValue(ns(10));
        assertThat(run.tick(10)).isEqualTo(UNHEARD);
        run.tick(11);
        assertThat(run.told()).containsExactly(Matter.UNHEARD);
        assertThat(run.state.outOfReach()).isFalse();
        assertThat(run.speed(100, 8000)).isEqualTo(TURNING);
        assertThat(run.told()).containsExactly(Matter.UNHEARD, Matter.HEARD_AGAIN);
    }

    @Test
    void a_cold_resting_printer_that_falls_silent_is_out_of_reach_and_tells_nobody() {
        GuardRun run = new GuardRun(responding(OptionalLong.of(2 * S), false));
        run.report(0, 0, 0, 25);
        assertThat(run.tick(4)).isEqualTo(UNHEARD);
        assertThat(run.state.outOfReach()).isTrue();
        run.tick(10_000);
        assertThat(run.guard.wakeAt(run.state)).isEmpty();
        assertThat(run.told()).isEmpty();
        assertThat(run.trip()).isEmpty();
        assertThat(run.report(10_001, 0, 0, 25)).isEqualTo(RESTING);
        assertThat(run.told()).isEmpty();
    }

    @Test
    void a_resting_printer_that_is_working_or_about_to_be_hot_is_told() {
        for (Reads.Builder more : new Reads.Builder[] {
            new Reads.Builder().with(ReadName.WORKING, 1), new Reads.Builder().with(ReadName.NOZZLE_TARGET, 500)
        }) {
            GuardRun run = new GuardRun();
            run.at(new GuardEvent.Report(
                    0,
                    more.with(ReadName.SPEED, 0)
                            .with(ReadName.DUTY, 0)
                            .with(ReadName.NOZZLE, 298)
                            .build()));
            assertThat(run.state.fan()).isEqualTo(RESTING);
            run.tick(4);
            assertThat(run.told()).containsExactly(Matter.UNHEARD);
        }
    }

    @Test
    void a_printer_never_heard_tells_nobody() {
        GuardRun run = new GuardRun(responding(OptionalLong.of(S), true));
        assertThat(run.state.fan()).isEqualTo(UNHEARD);
        run.tick(1000);
        assertThat(run.told()).isEmpty();
        assertThat(run.trip()).isEmpty();
    }

    @Test
    void a_printer_not_heard_after_a_restart_that_was_turning_before_is_told() {
        GuardRun run = new GuardRun(responding(OptionalLong.of(S), false));
        run.at(new GuardEvent.Resumed(0, Optional.empty(), true, true, OptionalLong.empty()));
        run.tick(4);
        assertThat(run.told()).containsExactly(Matter.UNHEARD);
        assertThat(run.tick(5)).isEqualTo(TRIPPED);
        assertThat(run.trip()).contains(TripCause.UNHEARD);
    }

    @Test
    void silence_responds_only_by_a_rule_and_after_its_time() {
        GuardRun only = turning(settings());
        only.tick(10);
        assertThat(only.tick(100_000)).isEqualTo(UNHEARD);

        GuardRun rule = turning(responding(OptionalLong.of(7 * S), false));
        rule.tick(10);
        assertThat(rule.guard.wakeAt(rule.state)).hasValue(ns(17));
        assertThat(rule.tick(16.999)).isEqualTo(UNHEARD);
        assertThat(rule.tick(17)).isEqualTo(TRIPPED);
        assertThat(rule.trip()).contains(TripCause.UNHEARD);
    }

    @Test
    void silence_does_not_break_a_row_of_low_reports() {
        GuardRun run = turning(settings());
        run.speed(7, 0);
        run.speed(8, 0);
        assertThat(run.tick(12)).isEqualTo(UNHEARD);
        assertThat(run.speed(20, 0)).isEqualTo(TRIPPED);
    }

    @Test
    void a_fan_asked_to_turn_during_the_silence_is_starting() {
        GuardRun run = new GuardRun();
        run.report(0, 0, 0, 25);
        run.tick(4);
        assertThat(run.speed(60, 0)).isEqualTo(STARTING);
    }

    @Test
    void a_fan_that_was_turning_before_the_silence_is_not() {
        GuardRun run = turning(settings());
        run.tick(10);
        assertThat(run.speed(60, 0)).isEqualTo(DOUBTED);
    }

    @Test
    void the_same_report_again_and_again_is_silence() {
        GuardRun run = new GuardRun();
        for (int t = 0; t <= 6; t++) {
            run.numbered(t, 8000, t);
        }
        for (double t = 6.5; t < 10; t += 0.5) {
            run.numbered(t, 8000, 6);
            run.tick(t);
        }
        run.numbered(10, 8000, 6);
        assertThat(run.tick(10)).isEqualTo(UNHEARD);
        assertThat(run.numbered(10.5, 8000, 7)).isEqualTo(TURNING);
    }

    @Test
    void a_pause_of_the_watch_itself_is_not_the_machines_silence() {
        GuardRun run = turning(responding(OptionalLong.of(0), false));
        run.at(new GuardEvent.Stalled(ns(5000)));
        assertThat(run.tick(5000)).isEqualTo(TURNING);
        assertThat(run.speed(5001, 8000)).isEqualTo(TURNING);
    }

    @Test
    void a_cold_side_that_warms_although_the_speed_is_fine_contradicts() {
        GuardRun run = new GuardRun();
        double t = 0;
        for (; t < 200; t++) {
            assertThat(coldSide(run, t, 35)).isNotEqualTo(CONTRADICTED);
        }
        // 0.05 K a second is 3 K a minute: within the rule of 4 K
        double warm = 35;
        for (int i = 0; i < 200; i++, t++) {
            warm += 0.05;
            assertThat(coldSide(run, t, warm)).isEqualTo(TURNING);
        }
        // 0.1 K a second is 6 K a minute
        double before = t;
        while (coldSide(run, t, warm) == TURNING && t < before + 120) {
            warm += 0.1;
            t++;
        }
        assertThat(run.state.fan()).isEqualTo(CONTRADICTED);
        assertThat(t - before).isBetween(20.0, 60.0);
        assertThat(run.told()).containsExactly(Matter.WARMING);
        // settled at the higher level it is still contradicted; back down it agrees
        for (int i = 0; i < 300; i++, t++) {
            assertThat(coldSide(run, t, warm)).isEqualTo(CONTRADICTED);
        }
        assertThat(coldSide(run, t, warm - 8)).isEqualTo(TURNING);
        assertThat(run.told()).containsExactly(Matter.WARMING, Matter.AGREES_AGAIN);
        assertThat(run.trip()).isEmpty();
    }

    @Test
    void heating_up_warms_the_cold_side_without_contradiction() {
        GuardRun run = new GuardRun();
        for (int t = 0; t < 400; t++) {
            double nozzle = Math.min(235, 25 + 2.5 * t);
            double cold = 25 + 12 * (1 - Math.exp(-t / 60.0));
            run.at(new GuardEvent.Report(
                    ns(t),
                    new Reads.Builder()
                            .with(ReadName.SPEED, 8000)
                            .with(ReadName.NOZZLE, nozzle + 273.15)
                            .with(ReadName.COLD_SIDE, cold + 273.15)
                            .build()));
        }
        assertThat(run.told()).isEmpty();
        assertThat(run.state.fan()).isEqualTo(TURNING);
    }

    private static FanState coldSide(GuardRun run, double seconds, double celsius) {
        return run.at(new GuardEvent.Report(
                ns(seconds),
                new Reads.Builder()
                        .with(ReadName.SPEED, 8000)
                        .with(ReadName.DUTY, 1)
                        .with(ReadName.NOZZLE, 500)
                        .with(ReadName.COLD_SIDE, celsius + 273.15)
                        .build()));
    }

    @Test
    void a_speed_shown_while_commanded_off_contradicts_but_coasting_does_not() {
        GuardRun run = turning(settings());
        // coast allowance 2 s: the reports at 7, 8 and 9 s are forgiven
        for (int t = 7; t <= 11; t++) {
            assertThat(run.report(t, 8000, 0, 25)).isEqualTo(RESTING);
        }
        assertThat(run.report(12, 8000, 0, 25)).isEqualTo(CONTRADICTED);
        assertThat(run.told()).containsExactly(Matter.TURNS_WHILE_OFF);
        assertThat(run.report(13, 100, 0, 25)).isEqualTo(RESTING);
        assertThat(run.told()).containsExactly(Matter.TURNS_WHILE_OFF, Matter.AGREES_AGAIN);

        GuardRun coasts = turning(settings());
        coasts.report(7, 8000, 0, 25);
        coasts.report(8, 6000, 0, 25);
        coasts.report(9, 5300, 0, 25);
        for (int t = 10; t < 60; t++) {
            assertThat(coasts.report(t, 0, 0, 25)).isEqualTo(RESTING);
        }
    }

    @Test
    void a_frozen_reading_over_a_hot_nozzle_contradicts_too() {
        GuardRun run = turning(settings());
        for (int t = 7; t < 20; t++) {
            run.report(t, 8000, 0, 220);
        }
        assertThat(run.state.fan()).isEqualTo(CONTRADICTED);
    }

    @Test
    void a_contradiction_trips_only_by_a_rule() {
        GuardRun run = turning(responding(OptionalLong.empty(), true));
        for (int t = 7; t < 12; t++) {
            run.report(t, 8000, 0, 25);
        }
        assertThat(run.report(12, 8000, 0, 25)).isEqualTo(TRIPPED);
        assertThat(run.trip()).contains(TripCause.CONTRADICTED);
    }

    @Test
    void a_contradicted_fan_that_is_slow_as_well_is_doubted_and_trips() {
        GuardRun run = turning(settings());
        for (int t = 7; t < 14; t++) {
            run.report(t, 8000, 0, 220);
        }
        assertThat(run.state.fan()).isEqualTo(CONTRADICTED);
        assertThat(run.speed(14, 0)).isEqualTo(DOUBTED);
        run.speed(15, 0);
        assertThat(run.speed(16, 0)).isEqualTo(TRIPPED);
    }
}
