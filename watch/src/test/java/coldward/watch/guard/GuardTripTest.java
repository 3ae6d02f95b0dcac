package coldward.watch.guard;

import static coldward.watch.guard.FanState.DOUBTED;
import static coldward.watch.guard.FanState.RESTING;
import static coldward.watch.guard.FanState.STARTING;
import static coldward.watch.guard.FanState.TRIPPED;
import static coldward.watch.guard.FanState.TURNING;
import static coldward.watch.guard.GuardRun.S;
import static coldward.watch.guard.GuardRun.TRIP;
import static coldward.watch.guard.GuardRun.ns;
import static coldward.watch.guard.GuardRun.settings;
import static coldward.watch.guard.GuardRun.turning;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.model.shop.LinkSpec.Says;
import coldward.model.shop.ReadName;
import coldward.quantity.InputError;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class GuardTripTest {

    @Test
    void three_low_reports_in_a_row_trip() {
        GuardRun run = turning(settings());
        assertThat(run.speed(7, 0)).isEqualTo(DOUBTED);
        assertThat(run.speed(8, 0)).isEqualTo(DOUBTED);
        assertThat(run.speed(9, 0)).isEqualTo(TRIPPED);
        assertThat(run.effects).contains(new Effect.StartResponse(ns(9), TripCause.LOW_SPEED, ns(7)));
    }

    @Test
    void a_good_report_between_starts_the_row_anew() {
        GuardRun run = turning(settings());
        run.speed(7, 0);
        run.speed(8, 0);
        assertThat(run.speed(9, 8000)).isEqualTo(TURNING);
        run.speed(10, 0);
        assertThat(run.speed(11, 0)).isEqualTo(DOUBTED);
        assertThat(run.speed(12, 0)).isEqualTo(TRIPPED);
    }

    @Test
    void low_is_strictly_below_the_trip_speed() {
        GuardRun at = turning(settings());
        GuardRun below = turning(settings());
        for (int t = 7; t < 20; t++) {
            assertThat(at.speed(t, TRIP)).isEqualTo(TURNING);
            below.speed(t, Math.nextDown(TRIP));
        }
        assertThat(below.state.fan()).isEqualTo(TRIPPED);
    }

    @Test
    void grace_forgives_a_start_and_ends_exactly_after_its_time() {
        GuardRun run = new GuardRun();
        run.report(0, 0, 0, 25);
        assertThat(run.state.fan()).isEqualTo(RESTING);
        for (int t = 1; t < 6; t++) {
            assertThat(run.speed(t, 0)).isEqualTo(STARTING);
        }
        assertThat(run.speed(6, 0)).isEqualTo(DOUBTED);
        assertThat(run.speed(7, 0)).isEqualTo(DOUBTED);
        assertThat(run.speed(8, 0)).isEqualTo(TRIPPED);
    }

    @Test
    void enough_good_reports_end_the_start_sooner() {
        GuardRun run = new GuardRun();
        run.speed(0, 8000);
        run.speed(1, 8000);
        assertThat(run.speed(2, 8000)).isEqualTo(TURNING);
        assertThat(run.speed(3, 0)).isEqualTo(DOUBTED);
        run.speed(4, 0);
        assertThat(run.speed(5, 0)).isEqualTo(TRIPPED);
    }

    @Test
    void resting_never_trips() {
        GuardRun run = new GuardRun();
        for (int t = 0; t < 100; t++) {
            assertThat(run.report(t, 0, 0, 25)).isEqualTo(RESTING);
        }
        assertThat(run.trip()).isEmpty();
    }

    @Test
    void a_hot_nozzle_needs_the_fan_whatever_the_duty_says_and_exactly_at_the_limit_it_does_not() {
        GuardRun hot = new GuardRun();
        GuardRun atLimit = new GuardRun();
        for (int t = 0; t < 12; t++) {
            hot.report(t, 0, 0, 50.01);
            atLimit.report(t, 0, 0, 50);
        }
        assertThat(hot.state.fan()).isEqualTo(TRIPPED);
        assertThat(atLimit.state.fan()).isEqualTo(RESTING);
    }

    @Test
    void a_target_alone_does_not_ask_for_the_fan_where_the_nozzle_is_read() {
        GuardRun run = new GuardRun();
        for (int t = 0; t < 12; t++) {
            run.at(new GuardEvent.Report(
                    ns(t),
                    new Reads.Builder()
                            .with(ReadName.SPEED, 0)
                            .with(ReadName.NOZZLE, 300)
                            .with(ReadName.NOZZLE_TARGET, 500)
                            .build()));
        }
        assertThat(run.state.fan()).isEqualTo(RESTING);
    }

    @Test
    void what_stands_in_where_neither_duty_nor_nozzle_is_read() {
        assertThat(fanWith(new Reads.Builder().with(ReadName.NOZZLE_TARGET, 500)))
                .isEqualTo(TRIPPED);
        assertThat(fanWith(new Reads.Builder().with(ReadName.NOZZLE_TARGET, 0))).isEqualTo(RESTING);
        assertThat(fanWith(new Reads.Builder().with(ReadName.WORKING, 1))).isEqualTo(TRIPPED);
        assertThat(fanWith(new Reads.Builder().with(ReadName.WORKING, 0))).isEqualTo(RESTING);
        assertThat(fanWith(new Reads.Builder())).isEqualTo(TRIPPED);
    }

    private static FanState fanWith(Reads.Builder context) {
        GuardRun run = new GuardRun();
        for (int t = 0; t < 12; t++) {
            run.at(new GuardEvent.Report(ns(t), context.with(ReadName.SPEED, 0).build()));
        }
        return run.state.fan();
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.25, 0.5, 1, 2, 4})
    void without_identity_a_stopped_fan_trips_by_time_however_often_it_is_polled(double every) {
        GuardRun run = turning(settings());
        double tripped = 0;
        for (double t = 7; tripped == 0 && t < 30; t += every) {
            if (run.speed(t, 0) == TRIPPED) {
                tripped = t;
            }
        }
        // the first low report at 7 s, then two more at least one interval apart
        assertThat(tripped).isEqualTo(7 + 2 * Math.max(every, 1));
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.25, 4})
    void with_identity_only_new_reports_count(double every) {
        GuardRun run = new GuardRun();
        for (int t = 0; t <= 6; t++) {
            run.numbered(t, 8000, t);
        }
        // the machine measures once a second; report number n is made at n s
        double tripped = 0;
        for (double t = 7; tripped == 0 && t < 30; t += every) {
            if (run.numbered(t, 0, Math.floor(t)) == TRIPPED) {
                tripped = t;
            }
        }
        assertThat(tripped).isEqualTo(7 + 2 * Math.max(every, 1));
    }

    @Test
    void with_identity_reports_count_at_their_own_pace_and_repeats_never() {
        GuardRun run = new GuardRun();
        for (int n = 0; n <= 60; n++) {
            run.numbered(n * 0.1, 8000, n);
        }
        for (int repeat = 0; repeat < 100; repeat++) {
            assertThat(run.numbered(6.1 + repeat * 0.03, 0, 61)).isEqualTo(DOUBTED);
        }
        run.numbered(9.2, 0, 62);
        assertThat(run.numbered(9.25, 0, 63)).isEqualTo(TRIPPED);
    }

    @Test
    void numbering_begun_anew_counts_by_time() {
        GuardRun run = new GuardRun();
        for (int t = 0; t <= 6; t++) {
            run.numbered(t, 8000, 1000 + t);
        }
        assertThat(run.numbered(6.5, 0, 1)).isEqualTo(TURNING);
        assertThat(run.numbered(7.5, 0, 2)).isEqualTo(DOUBTED);
        run.numbered(8.5, 0, 3);
        assertThat(run.numbered(9.5, 0, 4)).isEqualTo(TRIPPED);
    }

    @Test
    void on_change_a_last_low_value_is_confirmed_by_liveness_and_time() {
        GuardRun run = turning(GuardRun.saying(Says.ON_CHANGE));
        assertThat(run.speed(7, 0)).isEqualTo(DOUBTED);
        // nothing more about the speed; the machine only answers, four times a second
        Reads alive = new Reads.Builder().with(ReadName.DUTY, 0.5).build();
        double tripped = 0;
        for (double t = 7.25; tripped == 0 && t < 20; t += 0.25) {
            if (run.at(new GuardEvent.Report(ns(t), alive)) == TRIPPED) {
                tripped = t;
            }
        }
        assertThat(tripped).isEqualTo(9);
    }

    @Test
    void on_change_a_last_good_value_stays_good_while_the_machine_answers() {
        GuardRun run = turning(GuardRun.saying(Says.ON_CHANGE));
        Reads alive = new Reads.Builder().with(ReadName.DUTY, 0.5).build();
        for (double t = 7; t < 60; t++) {
            assertThat(run.at(new GuardEvent.Report(ns(t), alive))).isEqualTo(TURNING);
            assertThat(run.tick(t + 0.5)).isEqualTo(TURNING);
        }
        assertThat(run.tick(63.1)).isEqualTo(FanState.UNHEARD);
    }

    @Test
    void one_confirmation_is_enough_where_the_sheet_says_so() {
        GuardSettings s = settings();
        GuardRun run = turning(new GuardSettings(
                TRIP, 1, s.grace(), S, s.runsAbove(), s.says(), s.unheardAfter(), OptionalLong.empty(), 4, false, 0));
        assertThat(run.speed(7, 0)).isEqualTo(TRIPPED);
        assertThat(run.effects)
                .containsSubsequence(
                        new Effect.Changed(ns(7), TURNING, DOUBTED), new Effect.Changed(ns(7), DOUBTED, TRIPPED));
    }

    @Test
    void a_trip_latches_until_it_is_released_by_name() {
        GuardRun run = turning(settings());
        run.speed(7, 0);
        run.speed(8, 0);
        run.speed(9, 0);
        for (int t = 10; t < 100; t++) {
            assertThat(run.speed(t, 8000)).isEqualTo(TRIPPED);
            assertThat(run.report(t + 0.5, 0, 0, 25)).isEqualTo(TRIPPED);
        }
        assertThat(run.tick(1000)).isEqualTo(TRIPPED);
        assertThat(run.at(new GuardEvent.Release(ns(1001), "Ada", "new fan fitted")))
                .isEqualTo(RESTING);
        assertThat(run.state.cause()).isEmpty();
        assertThat(run.effects).contains(new Effect.Released(ns(1001), "Ada", "new fan fitted"));
    }

    @Test
    void a_release_without_name_or_reason_is_not_one() {
        assertThatThrownBy(() -> new GuardEvent.Release(0, " ", "new fan")).isInstanceOf(InputError.class);
        assertThatThrownBy(() -> new GuardEvent.Release(0, "Ada", "")).isInstanceOf(InputError.class);
    }

    @Test
    void a_release_of_what_is_not_tripped_changes_nothing() {
        GuardRun run = turning(settings());
        GuardState before = run.state;
        run.at(new GuardEvent.Release(ns(7), "Ada", "by mistake"));
        assertThat(run.state).isEqualTo(before);
        assertThat(run.effects).endsWith(new Effect.NotReleased(ns(7), "Ada", "by mistake"));
    }

    @Test
    void after_a_release_a_fan_that_should_turn_gets_no_grace() {
        GuardRun run = turning(settings());
        run.speed(7, 0);
        run.speed(8, 0);
        run.speed(9, 0);
        run.at(new GuardEvent.Release(ns(10), "Ada", "thought it was fine"));
        assertThat(run.speed(10, 0)).isEqualTo(DOUBTED);
        run.speed(11, 0);
        assertThat(run.speed(12, 0)).isEqualTo(TRIPPED);
    }

    @Test
    void a_bypass_holds_the_trip_back_and_expires_by_itself() {
        GuardRun run = turning(settings());
        run.at(new GuardEvent.Bypass(ns(6.5), "Ada", "cleaning the fins", ns(20.5)));
        for (int t = 7; t <= 20; t++) {
            assertThat(run.speed(t, 0)).isEqualTo(DOUBTED);
        }
        assertThat(run.guard.wakeAt(run.state)).isPresent();
        assertThat(run.speed(21, 0)).isEqualTo(TRIPPED);
        assertThat(run.effects)
                .contains(
                        new Effect.Bypassed(ns(6.5), "Ada", "cleaning the fins", ns(20.5)),
                        new Effect.BypassOver(ns(21)));
    }

    @Test
    void a_bypass_needs_a_name_a_reason_and_an_end_within_a_day() {
        assertThatThrownBy(() -> new GuardEvent.Bypass(0, "", "r", S)).isInstanceOf(InputError.class);
        assertThatThrownBy(() -> new GuardEvent.Bypass(0, "Ada", " ", S)).isInstanceOf(InputError.class);
        assertThatThrownBy(() -> new GuardEvent.Bypass(S, "Ada", "r", S)).isInstanceOf(InputError.class);
        assertThatThrownBy(() -> new GuardEvent.Bypass(0, "Ada", "r", GuardEvent.LONGEST_BYPASS + 1))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("86400 s");
    }

    @Test
    void a_trip_from_before_a_restart_is_still_latched() {
        GuardRun run = new GuardRun();
        run.at(new GuardEvent.Resumed(0, Optional.of(TripCause.LOW_SPEED), true, true, OptionalLong.empty()));
        assertThat(run.state.fan()).isEqualTo(TRIPPED);
        assertThat(run.speed(1, 8000)).isEqualTo(TRIPPED);
        assertThat(run.state.cause()).contains(TripCause.LOW_SPEED);
        // whether its response is finished is the journal's to say, not the guard's
        assertThat(run.trip()).isEmpty();
    }

    @Test
    void after_a_hard_end_a_fan_that_should_turn_gets_no_grace_until_one_good_report() {
        GuardRun dead = new GuardRun();
        dead.at(new GuardEvent.Resumed(0, Optional.empty(), true, true, OptionalLong.empty()));
        assertThat(dead.speed(1, 0)).isEqualTo(DOUBTED);
        dead.speed(2, 0);
        assertThat(dead.speed(3, 0)).isEqualTo(TRIPPED);

        GuardRun well = new GuardRun();
        well.at(new GuardEvent.Resumed(0, Optional.empty(), true, true, OptionalLong.empty()));
        assertThat(well.speed(1, 8000)).isEqualTo(TURNING);
        well.report(2, 8000, 0, 25);
        for (int t = 3; t < 8; t++) {
            assertThat(well.speed(t, 0)).isEqualTo(STARTING);
        }
    }

    @Test
    void a_bypass_goes_on_after_a_restart() {
        GuardRun run = new GuardRun();
        run.at(new GuardEvent.Resumed(0, Optional.empty(), true, true, OptionalLong.of(ns(10))));
        for (int t = 1; t < 10; t++) {
            assertThat(run.speed(t, 0)).isEqualTo(DOUBTED);
        }
        assertThat(run.speed(10, 0)).isEqualTo(TRIPPED);
    }
}
