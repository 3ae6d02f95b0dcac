package coldward.watch.guard;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.shop.LinkSpec.Says;
import coldward.model.shop.ReadName;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;

/**
 * What holds for a guard after every event, whatever the events; used by every test that runs one. It keeps a plain
 * model of its own (maps, no states) of when a trip for low speed is due, and compares.
 */
final class GuardInvariants {

    private final GuardSettings settings;
    private final Map<ReadName, Double> last = new EnumMap<>(ReadName.class);
    private OptionalLong countedAt = OptionalLong.empty();
    private OptionalLong silentSince = OptionalLong.empty();
    private OptionalLong bypassUntil = OptionalLong.empty();
    private OptionalLong startedAt = OptionalLong.empty();
    private boolean askedBefore;
    private boolean noGrace;
    private int goodInRow;
    private int lowInRow;

    GuardInvariants(GuardSettings settings) {
        this.settings = settings;
    }

    /** Checks one step; all steps of a guard must be shown in order. */
    void check(GuardState before, GuardEvent event, Step step) {
        GuardState after = step.state();
        changesAreLegalAndComplete(before, step);
        boolean lowTripDue = follow(before, event);
        List<Effect.StartResponse> responses = step.effects().stream()
                .filter(Effect.StartResponse.class::isInstance)
                .map(Effect.StartResponse.class::cast)
                .toList();
        boolean lowTrip = responses.stream().anyMatch(r -> r.cause() == TripCause.LOW_SPEED);
        assertThat(lowTrip)
                .as("low-speed trip at %s, row of %s by the plain model", event, lowInRow)
                .isEqualTo(lowTripDue);
        for (Effect.StartResponse response : responses) {
            assertThat(after.bypassUntil()).as("no trip while bypassed").isEmpty();
            assertThat(after.cause()).contains(response.cause());
            switch (response.cause()) {
                case LOW_SPEED -> assertThat(event).isInstanceOf(GuardEvent.Report.class);
                case UNHEARD -> {
                    assertThat(settings.unheardRespondsAfter()).isPresent();
                    assertThat(event.at() - silentSince.orElseThrow())
                            .isGreaterThanOrEqualTo(settings.unheardAfter()
                                    + settings.unheardRespondsAfter().getAsLong());
                }
                case CONTRADICTED -> assertThat(settings.contradictedResponds()).isTrue();
            }
        }
        if (before.fan() == FanState.TRIPPED && after.fan() != FanState.TRIPPED) {
            assertThat(event).as("a trip is left only by release").isInstanceOf(GuardEvent.Release.class);
            assertThat(step.effects()).anyMatch(Effect.Released.class::isInstance);
        }
        assertThat(after.cause().isPresent()).isEqualTo(after.fan() == FanState.TRIPPED);
        aSampleCountsOnce(before, event, after);
    }

    private static void changesAreLegalAndComplete(GuardState before, Step step) {
        FanState fan = before.fan();
        for (Effect effect : step.effects()) {
            if (effect instanceof Effect.Changed changed) {
                assertThat(changed.from()).isEqualTo(fan);
                assertThat(Transition.legal(changed.from(), changed.to()))
                        .as("%s", changed)
                        .isTrue();
                fan = changed.to();
                if (fan == FanState.TRIPPED) {
                    assertThat(changed.from())
                            .as("no trip from rest or a start")
                            .isNotIn(FanState.RESTING, FanState.STARTING);
                }
            }
        }
        assertThat(step.state().fan()).isEqualTo(fan);
    }

    private void aSampleCountsOnce(GuardState before, GuardEvent event, GuardState after) {
        assertThat(after.confirmations() - before.confirmations()).isLessThanOrEqualTo(1);
        if (after.confirmations() > before.confirmations()) {
            assertThat(event).isInstanceOf(GuardEvent.Report.class);
            boolean newNumber = after.held().has(ReadName.REPORT)
                    && before.held().has(ReadName.REPORT)
                    && after.held().get(ReadName.REPORT) > before.held().get(ReadName.REPORT);
            boolean intervalPassed = before.countedAt().isEmpty()
                    || event.at() - before.countedAt().getAsLong() >= settings.reportInterval();
            assertThat(newNumber || intervalPassed)
                    .as("%s counted twice", event)
                    .isTrue();
        }
    }

    /** Follows the event in the plain model; true if it must trip for low speed. */
    private boolean follow(GuardState before, GuardEvent event) {
        long at = event.at();
        if (silentSince.isEmpty()) {
            silentSince = OptionalLong.of(at);
        }
        if (bypassUntil.isPresent() && at >= bypassUntil.getAsLong()) {
            bypassUntil = OptionalLong.empty();
        }
        return switch (event) {
            case GuardEvent.Tick tick -> false;
            case GuardEvent.Stalled stalled -> {
                silentSince = OptionalLong.of(at);
                yield false;
            }
            case GuardEvent.Bypass bypass -> {
                bypassUntil = OptionalLong.of(bypass.until());
                yield false;
            }
            case GuardEvent.Resumed resumed -> {
                askedBefore = resumed.asked();
                noGrace = resumed.asked() || resumed.hardEnd();
                bypassUntil = resumed.bypassUntil();
                yield false;
            }
            case GuardEvent.Release release -> {
                if (before.fan() == FanState.TRIPPED) {
                    askedBefore = false;
                    noGrace = true;
                    lowInRow = 0;
                }
                yield false;
            }
            case GuardEvent.Report report -> followReport(before, at, report.reads());
        };
    }

    private boolean followReport(GuardState before, long at, Reads reads) {
        Double number = last.get(ReadName.REPORT);
        for (ReadName name : ReadName.values()) {
            reads.find(name).ifPresent(value -> last.put(name, value));
        }
        boolean says = reads.has(ReadName.SPEED);
        boolean same = says && number != null && reads.has(ReadName.REPORT) && reads.get(ReadName.REPORT) == number;
        boolean higher = says && number != null && reads.has(ReadName.REPORT) && reads.get(ReadName.REPORT) > number;
        boolean heard = settings.says() == Says.ON_CHANGE ? last.containsKey(ReadName.SPEED) : says && !same;
        boolean counted =
                heard && (higher || countedAt.isEmpty() || at - countedAt.getAsLong() >= settings.reportInterval());
        if (heard) {
            silentSince = OptionalLong.of(at);
        }
        if (counted) {
            countedAt = OptionalLong.of(at);
        }
        if (before.fan() == FanState.TRIPPED || (before.fan() == FanState.UNHEARD && !heard)) {
            return false;
        }
        boolean asked = last.getOrDefault(ReadName.DUTY, 0.0) > 0
                || last.getOrDefault(ReadName.NOZZLE, 0.0) > settings.runsAbove()
                || (!last.containsKey(ReadName.DUTY) && !last.containsKey(ReadName.NOZZLE));
        if (!asked) {
            askedBefore = false;
            noGrace = false;
            lowInRow = 0;
            return false;
        }
        if (!askedBefore) {
            startedAt = OptionalLong.of(at);
            goodInRow = 0;
            lowInRow = 0;
        }
        askedBefore = true;
        if (noGrace) {
            startedAt = OptionalLong.empty();
        }
        boolean forgiven = startedAt.isPresent()
                && at - startedAt.getAsLong() < settings.grace()
                && goodInRow < settings.confirmations();
        if (!counted) {
            return false;
        }
        boolean low = last.getOrDefault(ReadName.SPEED, 0.0) < settings.tripSpeed();
        if (forgiven) {
            goodInRow = low ? 0 : goodInRow + 1;
            return false;
        }
        if (!low) {
            lowInRow = 0;
            noGrace = false;
            return false;
        }
        lowInRow++;
        return lowInRow >= settings.confirmations() && bypassUntil.isEmpty();
    }
}
