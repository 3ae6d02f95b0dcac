package coldward.watch.guard;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.shop.ReadName;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class GuardPropertyTest {

    private static final int SEEDS = 1000;

    private static List<Step> run(GuardScenario scenario, boolean checked) {
        Guard guard = new Guard(scenario.settings());
        GuardInvariants invariants = new GuardInvariants(scenario.settings());
        GuardState state = GuardState.begin(scenario.events().getFirst().at());
        List<Step> steps = new ArrayList<>();
        for (GuardEvent event : scenario.events()) {
            Step step = guard.step(state, event);
            if (checked) {
                invariants.check(state, event, step);
            }
            steps.add(step);
            state = step.state();
        }
        return steps;
    }

    @Test
    void invariants_hold_and_the_sequences_reach_every_transition_and_cause() {
        Set<String> walked = new java.util.HashSet<>();
        Map<TripCause, Integer> causes = new EnumMap<>(TripCause.class);
        Set<Effect.Matter> told = EnumSet.noneOf(Effect.Matter.class);
        for (long seed = 0; seed < SEEDS; seed++) {
            try {
                for (Step step : run(GuardScenario.of(seed), true)) {
                    for (Effect effect : step.effects()) {
                        if (effect instanceof Effect.Changed changed) {
                            walked.add(changed.from() + " " + changed.to());
                        } else if (effect instanceof Effect.StartResponse response) {
                            causes.merge(response.cause(), 1, Integer::sum);
                        } else if (effect instanceof Effect.Tell tell) {
                            told.add(tell.matter());
                        }
                    }
                }
            } catch (AssertionError | RuntimeException e) {
                throw new AssertionError("seed " + seed + ": " + e.getMessage(), e);
            }
        }
        // a property that never meets its case proves nothing
        assertThat(causes.keySet()).containsExactlyInAnyOrder(TripCause.values());
        assertThat(causes.get(TripCause.LOW_SPEED)).isGreaterThan(500);
        for (Transition transition : Transition.values()) {
            assertThat(walked).contains(transition.from() + " " + transition.to());
        }
        assertThat(told)
                .contains(
                        Effect.Matter.UNHEARD,
                        Effect.Matter.HEARD_AGAIN,
                        Effect.Matter.TURNS_WHILE_OFF,
                        Effect.Matter.AGREES_AGAIN);
    }

    @Test
    void replaying_the_same_events_gives_the_same_steps() {
        for (long seed = 0; seed < 300; seed++) {
            assertThat(run(GuardScenario.of(seed), false)).isEqualTo(run(GuardScenario.of(seed), false));
        }
    }

    @Test
    void shifting_the_clock_shifts_the_effects_and_nothing_else() {
        long shift = Long.MAX_VALUE / 2;
        for (long seed = 0; seed < 300; seed++) {
            GuardScenario scenario = GuardScenario.of(seed);
            GuardScenario later = new GuardScenario(
                    scenario.settings(),
                    scenario.events().stream().map(e -> shifted(e, shift)).toList());
            List<FanState> plain =
                    run(scenario, false).stream().map(s -> s.state().fan()).toList();
            assertThat(run(later, false).stream().map(s -> s.state().fan()).toList())
                    .as("seed %s", seed)
                    .isEqualTo(plain);
        }
    }

    private static GuardEvent shifted(GuardEvent event, long by) {
        return switch (event) {
            case GuardEvent.Report e -> new GuardEvent.Report(e.at() + by, e.reads());
            case GuardEvent.Tick e -> new GuardEvent.Tick(e.at() + by);
            case GuardEvent.Release e -> new GuardEvent.Release(e.at() + by, e.name(), e.reason());
            case GuardEvent.Bypass e -> new GuardEvent.Bypass(e.at() + by, e.name(), e.reason(), e.until() + by);
            case GuardEvent.Stalled e -> new GuardEvent.Stalled(e.at() + by);
            case GuardEvent.Resumed e ->
                new GuardEvent.Resumed(
                        e.at() + by,
                        e.tripped(),
                        e.asked(),
                        e.hardEnd(),
                        e.bypassUntil().isPresent()
                                ? java.util.OptionalLong.of(e.bypassUntil().getAsLong() + by)
                                : e.bypassUntil());
        };
    }

    @Test
    void repeating_every_sample_changes_no_confirmation_and_no_state() {
        for (long seed = 0; seed < 500; seed++) {
            GuardScenario scenario = GuardScenario.of(seed);
            List<GuardEvent> doubled = new ArrayList<>();
            List<Integer> originals = new ArrayList<>();
            for (GuardEvent event : scenario.events()) {
                doubled.add(event);
                if (event instanceof GuardEvent.Report) {
                    doubled.add(event);
                    doubled.add(event);
                }
                originals.add(doubled.size() - 1);
            }
            List<Step> plain = run(scenario, false);
            List<Step> repeated = run(new GuardScenario(scenario.settings(), doubled), true);
            for (int i = 0; i < plain.size(); i++) {
                GuardState once = plain.get(i).state();
                GuardState thrice = repeated.get(originals.get(i)).state();
                assertThat(thrice.confirmations())
                        .as("seed %s event %s", seed, i)
                        .isEqualTo(once.confirmations());
                assertThat(thrice.fan()).as("seed %s event %s", seed, i).isEqualTo(once.fan());
            }
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 7, 100})
    void exactly_k_low_reports_trip_and_one_fewer_never_does(int k) {
        GuardSettings s = GuardRun.settings();
        GuardSettings settings = new GuardSettings(
                s.tripSpeed(),
                k,
                0,
                s.reportInterval(),
                s.runsAbove(),
                s.says(),
                s.unheardAfter(),
                s.unheardRespondsAfter(),
                s.contradictedRise(),
                false,
                s.coastAllowance());
        GuardRun run = new GuardRun(settings);
        run.speed(0, 8000);
        for (int i = 1; i < k; i++) {
            run.speed(i, 0);
        }
        assertThat(run.state.fan()).isNotEqualTo(FanState.TRIPPED);
        run.speed(k, 0);
        assertThat(run.state.fan()).isEqualTo(FanState.TRIPPED);
    }

    @Test
    void reads_keep_every_value_and_complete_each_other() {
        Reads.Builder all = new Reads.Builder();
        for (ReadName name : ReadName.values()) {
            all.with(name, name.word().length());
        }
        Reads full = all.build();
        for (ReadName name : ReadName.values()) {
            assertThat(full.get(name)).isEqualTo(name.word().length());
            Reads one = new Reads.Builder().with(name, -1).build();
            assertThat(one.has(name)).isTrue();
            assertThat(one.over(full).get(name)).isEqualTo(-1);
            for (ReadName other : ReadName.values()) {
                if (other != name) {
                    assertThat(one.has(other)).isFalse();
                    assertThat(one.over(full).get(other)).isEqualTo(full.get(other));
                }
            }
        }
    }
}
