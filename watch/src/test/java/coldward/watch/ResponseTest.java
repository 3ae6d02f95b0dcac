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
import coldward.watch.PrinterView.Outcome;
import coldward.watch.PrinterView.Progress;
import coldward.watch.PrinterView.TripView;
import coldward.watch.guard.FanState;
import coldward.watch.guard.TripCause;
import java.util.EnumSet;
import java.util.List;
import org.junit.jupiter.api.Test;

class ResponseTest {

    private static final EnumSet<Action> ALL = EnumSet.allOf(Action.class);

    private static TestShop failedFan(ResponsePlan plan) {
        TestShop shop = new TestShop(plan, "heron");
        shop.seconds(10.1);
        shop.machine("heron").speed(0);
        return shop;
    }

    @Test
    void a_stopped_fan_is_answered_at_once_in_order_and_confirmed_by_what_the_machine_says() throws Exception {
        try (TestShop shop = failedFan(usual())) {
            shop.seconds(2);
            FakeMachine heron = shop.machine("heron");
            // the first low report comes at 10.5 s, the third at 11.5 s
            assertThat(heron.requested).containsExactly(HEATER_OFF, HOLD, BLOCK_FAN);
            assertThat(heron.requestedAt).containsOnly(11_500_000_000L);
            TripView trip = shop.heron().trip().orElseThrow();
            assertThat(trip.cause()).isEqualTo(TripCause.LOW_SPEED);
            assertThat(trip.firstLowAt()).isEqualTo(10_500_000_000L);
            assertThat(trip.trippedAt()).isEqualTo(11_500_000_000L);
            assertThat(trip.outcome()).isEqualTo(Outcome.SAFE);
            assertThat(trip.safeAt()).hasValue(12_000_000_000L);
            assertThat(trip.secondsToSafe()).hasValue(1.5);
            assertThat(trip.actions()).allSatisfy(a -> {
                assertThat(a.progress()).isEqualTo(Progress.CONFIRMED);
                assertThat(a.attempts()).isEqualTo(1);
                assertThat(a.sentAt()).hasValue(11_500_000_000L);
                assertThat(a.answeredAt()).hasValue(11_520_000_000L);
                assertThat(a.confirmedAt()).hasValue(12_000_000_000L);
            });
            assertThat(shop.heron().fan()).isEqualTo(FanState.TRIPPED);
            assertThat(shop.told()).containsExactly(Notice.Kind.TRIP, Notice.Kind.MADE_SAFE);
            assertThat(shop.kinds("heron"))
                    .containsSubsequence(
                            "trip",
                            "response-started",
                            "action-sent",
                            "action-taken",
                            "action-confirmed",
                            "response-finished");
        }
    }

    @Test
    void the_journal_holds_the_measured_times() throws Exception {
        try (TestShop shop = failedFan(usual())) {
            shop.seconds(2);
            assertThat(shop.journal
                            .latest("heron", "trip")
                            .orElseThrow()
                            .entry()
                            .facts())
                    .containsEntry("ms_low", 1000L)
                    .containsEntry("speed_rpm", 0L)
                    .containsEntry("confirmations", 3L)
                    .containsEntry("cause", "low-speed");
            assertThat(shop.journal
                            .latest("heron", "action-taken")
                            .orElseThrow()
                            .entry()
                            .facts())
                    .containsEntry("ms", 20L);
            assertThat(shop.journal
                            .latest("heron", "action-confirmed")
                            .orElseThrow()
                            .entry()
                            .facts())
                    .containsEntry("ms", 500L)
                    .containsEntry("by", "read-back");
            assertThat(shop.journal
                            .latest("heron", "response-finished")
                            .orElseThrow()
                            .entry()
                            .facts())
                    .containsEntry("outcome", "safe")
                    .containsEntry("ms_after_first_low", 1500L)
                    .containsEntry("ms_after_trip", 500L);
        }
    }

    @Test
    void an_action_without_effect_is_repeated_then_the_best_set_without_it_is_taken() throws Exception {
        ResponsePlan plan = plan(
                EnumSet.of(HEATER_OFF, HOLD),
                THREE,
                choice(40, HEATER_OFF, HOLD),
                choice(20, HEATER_OFF),
                choice(70, HEATER_OFF, BLOCK_FAN),
                choice(90, HEATER_OFF, HOLD, BLOCK_FAN));
        try (TestShop shop = failedFan(plan)) {
            FakeMachine heron = shop.machine("heron");
            heron.deaf.add(HOLD);
            shop.seconds(9);
            assertThat(heron.count(HOLD)).isEqualTo(3);
            assertThat(heron.count(BLOCK_FAN)).isZero();
            shop.seconds(3);
            // three times 3 s after the trip at 11.5 s
            assertThat(heron.requested).containsExactly(HEATER_OFF, HOLD, HOLD, HOLD, BLOCK_FAN);
            assertThat(heron.requestedAt.getLast()).isEqualTo(20_500_000_000L);
            assertThat(shop.heron().trip().orElseThrow().outcome()).isEqualTo(Outcome.SAFE);
            assertThat(shop.told()).containsExactly(Notice.Kind.TRIP, Notice.Kind.ESCALATED, Notice.Kind.MADE_SAFE);
            assertThat(shop.journal
                            .latest("heron", "response-finished")
                            .orElseThrow()
                            .entry()
                            .facts())
                    .containsEntry("unconfirmed", "[hold]");
        }
    }

    @Test
    void a_refusal_is_repeated_sooner_than_silence() throws Exception {
        try (TestShop shop = failedFan(usual())) {
            FakeMachine heron = shop.machine("heron");
            heron.refuses.add(HEATER_OFF);
            shop.seconds(5);
            assertThat(heron.count(HEATER_OFF)).isEqualTo(3);
            assertThat(shop.journal
                            .latest("heron", "action-failed")
                            .orElseThrow()
                            .entry()
                            .facts())
                    .containsEntry("why", "status 404");
        }
    }

    @Test
    void what_cannot_be_confirmed_is_an_alarm_and_is_tried_again_until_it_is() throws Exception {
        try (TestShop shop = failedFan(usual())) {
            FakeMachine heron = shop.machine("heron");
            heron.deaf.add(HEATER_OFF);
            shop.seconds(20);
            assertThat(shop.told()).containsExactly(Notice.Kind.TRIP, Notice.Kind.RESPONSE_UNCONFIRMED);
            assertThat(shop.heron().trip().orElseThrow().outcome()).isEqualTo(Outcome.UNCONFIRMED);
            assertThat(shop.kinds("heron")).doesNotContain("response-finished");
            shop.seconds(300);
            long tries = heron.count(HEATER_OFF);
            assertThat(tries).isBetween(15L, 60L);
            assertThat(shop.told()).containsOnlyOnce(Notice.Kind.RESPONSE_UNCONFIRMED);
            heron.deaf.clear();
            shop.seconds(60);
            assertThat(shop.heron().trip().orElseThrow().outcome()).isEqualTo(Outcome.SAFE);
            assertThat(shop.told()).endsWith(Notice.Kind.MADE_SAFE);
            assertThat(shop.kinds("heron")).contains("response-finished");
            long afterwards = heron.requested.size();
            shop.seconds(300);
            assertThat(heron.requested).hasSize((int) afterwards);
        }
    }

    @Test
    void a_machine_that_was_out_of_reach_is_asked_again_as_soon_as_it_answers() throws Exception {
        try (TestShop shop = failedFan(usual())) {
            FakeMachine heron = shop.machine("heron");
            shop.seconds(1.42);
            heron.reachable = false;
            shop.seconds(200);
            assertThat(shop.heron().trip().orElseThrow().outcome()).isEqualTo(Outcome.UNCONFIRMED);
            heron.reachable = true;
            shop.seconds(1.5);
            assertThat(shop.heron().trip().orElseThrow().outcome()).isEqualTo(Outcome.SAFE);
        }
    }

    @Test
    void an_unmapped_action_counts_as_unconfirmed_at_once() throws Exception {
        ResponsePlan plan = plan(
                EnumSet.of(HEATER_OFF, HOLD), EnumSet.of(HEATER_OFF, BLOCK_FAN), choice(50, HEATER_OFF, BLOCK_FAN));
        try (TestShop shop = failedFan(plan)) {
            shop.seconds(1.5);
            FakeMachine heron = shop.machine("heron");
            assertThat(heron.requested).containsExactly(HEATER_OFF, BLOCK_FAN);
            assertThat(heron.requestedAt).containsOnly(11_500_000_000L);
        }
    }

    @Test
    void power_off_comes_last_and_waits_for_block_fan() throws Exception {
        try (TestShop shop = failedFan(plan(ALL, ALL))) {
            FakeMachine heron = shop.machine("heron");
            shop.seconds(60);
            assertThat(heron.requested).containsExactly(HEATER_OFF, HOLD, BLOCK_FAN);
            assertThat(shop.heron().trip().orElseThrow().outcome()).isEqualTo(Outcome.RUNNING);
            assertThat(shop.heron().trip().orElseThrow().safeAt()).hasValue(12_000_000_000L);
            shop.seconds(3);
            assertThat(heron.requested).containsExactly(HEATER_OFF, HOLD, BLOCK_FAN, POWER_OFF);
            // block-fan was confirmed at 12 s and must blow for 60 s
            assertThat(heron.requestedAt.getLast()).isEqualTo(72_000_000_000L);
            assertThat(shop.heron().trip().orElseThrow().outcome()).isEqualTo(Outcome.SAFE);
        }
    }

    @Test
    void power_off_does_not_wait_when_the_heater_is_not_confirmed_off() throws Exception {
        try (TestShop shop = failedFan(plan(ALL, ALL))) {
            FakeMachine heron = shop.machine("heron");
            heron.deaf.add(HEATER_OFF);
            shop.seconds(9);
            assertThat(heron.requested).contains(POWER_OFF);
            // three times 2 s after the trip
            assertThat(heron.requestedAt.get(heron.requested.indexOf(POWER_OFF)))
                    .isEqualTo(17_500_000_000L);
            assertThat(shop.heron().trip().orElseThrow().outcome()).isEqualTo(Outcome.SAFE);
        }
    }

    @Test
    void power_off_is_the_last_resort_where_it_is_mapped_even_if_the_sheet_does_not_list_it() throws Exception {
        try (TestShop shop = failedFan(plan(EnumSet.of(HEATER_OFF, HOLD), ALL))) {
            FakeMachine heron = shop.machine("heron");
            heron.deaf.add(HOLD);
            shop.seconds(15);
            assertThat(heron.requested).endsWith(POWER_OFF);
            assertThat(shop.told())
                    .containsExactly(Notice.Kind.TRIP, Notice.Kind.RESPONSE_UNCONFIRMED, Notice.Kind.MADE_SAFE);
        }
    }

    @Test
    void power_off_is_not_used_while_another_set_still_saves() throws Exception {
        ResponsePlan plan = plan(EnumSet.of(HEATER_OFF, HOLD), ALL, choice(100, HEATER_OFF));
        try (TestShop shop = failedFan(plan)) {
            FakeMachine heron = shop.machine("heron");
            heron.deaf.add(HOLD);
            shop.seconds(120);
            assertThat(heron.requested).doesNotContain(POWER_OFF);
        }
        ResponsePlan tooLate = plan(EnumSet.of(HEATER_OFF, HOLD), ALL, choice(5, HEATER_OFF));
        try (TestShop shop = failedFan(tooLate)) {
            FakeMachine heron = shop.machine("heron");
            heron.deaf.add(HOLD);
            shop.seconds(120);
            assertThat(heron.requested).contains(POWER_OFF);
        }
    }

    @Test
    void without_a_proof_the_machines_answer_must_do() throws Exception {
        ResponsePlan plan =
                new ResponsePlan(EnumSet.of(HEATER_OFF), List.of(), EnumSet.of(HEATER_OFF), java.util.Map.of(), 3, 0);
        try (TestShop shop = failedFan(plan)) {
            shop.seconds(1.5);
            assertThat(shop.heron().trip().orElseThrow().safeAt()).hasValue(11_520_000_000L);
            assertThat(shop.journal
                            .latest("heron", "action-confirmed")
                            .orElseThrow()
                            .entry()
                            .facts())
                    .containsEntry("by", "answer");
        }
    }

    @Test
    void a_proof_seen_before_the_request_proves_nothing() throws Exception {
        try (TestShop shop = failedFan(usual())) {
            FakeMachine heron = shop.machine("heron");
            heron.values.put(coldward.model.shop.ReadName.WORKING, 0.0);
            shop.seconds(2);
            var hold = shop.heron().trip().orElseThrow().actions().get(1);
            assertThat(hold.action()).isEqualTo(HOLD);
            // the report that trips, at 11.5 s, is older than the request it leads to
            assertThat(hold.sentAt()).hasValue(11_500_000_000L);
            assertThat(hold.confirmedAt()).hasValue(12_000_000_000L);
        }
    }
}
