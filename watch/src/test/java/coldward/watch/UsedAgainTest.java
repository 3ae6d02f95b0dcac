package coldward.watch;

import static coldward.model.build.Action.BLOCK_FAN;
import static coldward.model.build.Action.HEATER_OFF;
import static coldward.model.build.Action.HOLD;
import static coldward.model.build.Action.POWER_OFF;
import static coldward.watch.TestShop.THREE;
import static coldward.watch.TestShop.choice;
import static coldward.watch.TestShop.plan;
import static coldward.watch.TestShop.usual;
import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.build.Action;
import coldward.model.shop.ReadName;
import coldward.watch.PrinterView.Outcome;
import coldward.watch.guard.FanState;
import coldward.watch.replay.EventTicker;
import java.time.Duration;
import java.util.EnumSet;
import org.junit.jupiter.api.Test;

/** A tripped printer that is used again without a release, and actions that are set back. */
class UsedAgainTest {

    private static final double HOT = 508.15;

    /** Tripped at 11.5 s, safe at 12 s. */
    private static TestShop safe() {
        TestShop shop = new TestShop(usual(), "heron");
        shop.seconds(10.1);
        shop.machine("heron").speed(0);
        shop.seconds(4);
        assertThat(shop.heron().trip().orElseThrow().outcome()).isEqualTo(Outcome.SAFE);
        shop.machine("heron").requested.clear();
        shop.machine("heron").requestedAt.clear();
        return shop;
    }

    @Test
    void heated_by_hand_while_the_fan_stands_the_response_comes_again() throws Exception {
        try (TestShop shop = safe()) {
            FakeMachine heron = shop.machine("heron");
            heron.values.put(ReadName.NOZZLE_TARGET, HOT);
            shop.seconds(2.5);
            assertThat(heron.requested).containsExactly(HEATER_OFF, HOLD, BLOCK_FAN);
            // set at 14.1 s, first report with it at 14.5 s, the third at 15.5 s
            assertThat(heron.requestedAt).containsOnly(15_500_000_000L);
            assertThat(shop.heron().fan()).isEqualTo(FanState.TRIPPED);
            assertThat(shop.heron().trip().orElseThrow().outcome()).isEqualTo(Outcome.SAFE);
            assertThat(shop.told())
                    .containsExactly(
                            Notice.Kind.TRIP, Notice.Kind.MADE_SAFE, Notice.Kind.TRIP_AGAIN, Notice.Kind.MADE_SAFE);
            assertThat(shop.journal
                            .latest("heron", "trip")
                            .orElseThrow()
                            .entry()
                            .facts())
                    .containsEntry("again", 1L)
                    .containsEntry("cause", "low-speed")
                    .containsEntry("ms_low", 1000L);
            heron.values.put(ReadName.NOZZLE_TARGET, HOT);
            shop.seconds(2.5);
            assertThat(heron.count(HEATER_OFF)).isEqualTo(2);
        }
    }

    @Test
    void set_to_work_by_hand_while_hot_it_comes_again_too() throws Exception {
        try (TestShop shop = safe()) {
            shop.machine("heron").values.put(ReadName.WORKING, 1.0);
            shop.seconds(2.5);
            assertThat(shop.machine("heron").requested).contains(HOLD);
        }
    }

    @Test
    void a_cold_machine_that_moves_needs_no_fan() throws Exception {
        try (TestShop shop = safe()) {
            FakeMachine heron = shop.machine("heron");
            heron.values.put(ReadName.NOZZLE, 300.0);
            heron.values.put(ReadName.DUTY, 0.0);
            shop.seconds(1);
            heron.values.put(ReadName.WORKING, 1.0);
            shop.seconds(60);
            assertThat(heron.requested).isEmpty();
        }
    }

    @Test
    void a_mended_fan_is_told_of_once_and_one_that_fails_again_is_answered() throws Exception {
        try (TestShop shop = safe()) {
            FakeMachine heron = shop.machine("heron");
            heron.speed(8000);
            heron.values.put(ReadName.NOZZLE_TARGET, HOT);
            shop.seconds(60);
            assertThat(heron.requested).isEmpty();
            assertThat(shop.told()).containsOnlyOnce(Notice.Kind.USED_WHILE_TRIPPED);
            heron.speed(0);
            shop.seconds(3);
            assertThat(heron.requested).containsExactly(HEATER_OFF, HOLD, BLOCK_FAN);
        }
    }

    @Test
    void a_fan_that_is_newly_asked_has_its_grace() throws Exception {
        try (TestShop shop = safe()) {
            FakeMachine heron = shop.machine("heron");
            heron.values.put(ReadName.NOZZLE, 300.0);
            heron.values.put(ReadName.DUTY, 0.0);
            shop.seconds(2);
            heron.values.put(ReadName.NOZZLE_TARGET, HOT);
            heron.values.put(ReadName.DUTY, 1.0);
            shop.seconds(4.5);
            assertThat(heron.requested).isEmpty();
            // grace of 5 s, then three reports
            shop.seconds(3);
            assertThat(heron.requested).contains(HEATER_OFF);
        }
    }

    @Test
    void a_bypass_holds_it_back_and_only_until_it_ends() throws Exception {
        try (TestShop shop = safe()) {
            FakeMachine heron = shop.machine("heron");
            shop.watch.bypass("heron", "Ada", "pulls the filament out", Duration.ofSeconds(60));
            heron.values.put(ReadName.NOZZLE_TARGET, HOT);
            shop.seconds(59);
            assertThat(heron.requested).isEmpty();
            shop.seconds(3);
            assertThat(heron.requested).contains(HEATER_OFF);
        }
    }

    @Test
    void found_heated_after_a_restart_it_comes_again() throws Exception {
        TestShop before = safe();
        before.kill();
        EventTicker later = new EventTicker(1_800_000_100_000L);
        try (TestShop again = new TestShop(
                usual(), later, before.journal, machine -> machine.values.put(ReadName.SPEED, 0.0), "heron")) {
            again.seconds(3);
            assertThat(again.machine("heron").requested).containsExactly(HEATER_OFF, HOLD, BLOCK_FAN);
            assertThat(again.heron().trip().orElseThrow().outcome()).isEqualTo(Outcome.SAFE);
        }
    }

    @Test
    void an_action_set_back_before_the_response_is_finished_is_requested_again() throws Exception {
        try (TestShop shop = new TestShop(plan(THREE, THREE), "heron")) {
            FakeMachine heron = shop.machine("heron");
            heron.deaf.add(HOLD);
            shop.seconds(10.1);
            heron.speed(0);
            shop.seconds(4);
            assertThat(heron.count(HEATER_OFF)).isEqualTo(1);
            heron.values.put(ReadName.NOZZLE_TARGET, HOT);
            shop.seconds(1);
            assertThat(heron.count(HEATER_OFF)).isEqualTo(2);
            assertThat(heron.values.get(ReadName.NOZZLE_TARGET)).isEqualTo(273.15);
            assertThat(shop.told()).containsOnlyOnce(Notice.Kind.UNDONE);
            assertThat(shop.kinds("heron")).contains("action-undone");
            heron.deaf.clear();
            shop.seconds(30);
            assertThat(shop.heron().trip().orElseThrow().outcome()).isEqualTo(Outcome.SAFE);
        }
    }

    @Test
    void power_off_waits_for_a_block_fan_that_was_taken_though_nothing_proves_it() throws Exception {
        EnumSet<Action> all = EnumSet.allOf(Action.class);
        try (TestShop shop = new TestShop(plan(all, all, choice(1, HEATER_OFF, HOLD)), "heron")) {
            FakeMachine heron = shop.machine("heron");
            heron.deaf.add(BLOCK_FAN);
            shop.seconds(10.1);
            heron.speed(0);
            shop.seconds(61);
            assertThat(heron.requested).doesNotContain(POWER_OFF);
            // taken at 11.52 s and given its 60 s
            shop.seconds(1);
            assertThat(heron.requested).contains(POWER_OFF);
            assertThat(heron.requestedAt.get(heron.requested.indexOf(POWER_OFF)))
                    .isEqualTo(71_520_000_000L);
        }
    }

    @Test
    void every_step_of_a_response_carries_its_time_after_the_trip() throws Exception {
        try (TestShop shop =
                new TestShop(plan(EnumSet.of(HEATER_OFF, HOLD), THREE, choice(100, HEATER_OFF, BLOCK_FAN)), "heron")) {
            FakeMachine heron = shop.machine("heron");
            heron.refuses.add(HOLD);
            shop.seconds(10.1);
            heron.speed(0);
            shop.seconds(20);
            for (String kind : new String[] {
                "action-sent", "action-taken", "action-confirmed", "action-failed", "action-unconfirmed", "escalated"
            }) {
                assertThat(shop.journal
                                .latest("heron", kind)
                                .orElseThrow()
                                .entry()
                                .facts())
                        .as(kind)
                        .containsKey("ms_after_trip");
            }
            assertThat(shop.journal
                            .latest("heron", "action-confirmed")
                            .orElseThrow()
                            .entry()
                            .facts())
                    .containsEntry("attempt", 1L)
                    .containsKey("ms_of_attempt");
        }
    }
}
