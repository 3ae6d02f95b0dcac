package coldward.model.check;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Plastics;
import coldward.model.build.Reading;
import coldward.model.build.Response;
import coldward.model.build.Trip;
import coldward.model.check.CheckFinding.Severity;
import coldward.model.check.CheckFinding.Subject;
import coldward.model.design.Judged;
import coldward.model.design.TripDesign;
import coldward.model.heat.SheetExample;
import coldward.model.trip.Heron;
import coldward.model.trip.Margin;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;

class CheckTest {

    private static final Reading EDGES = new Reading.Tachometer(2, 0.5, new Reading.Edge(0, 0), 1);
    private static final Build HERON = Heron.with(EDGES, 0.1).withTrip(new Trip(5200, 3, 5));

    private static Check check(Build build) {
        return Check.of(TripDesign.of(build));
    }

    private static Optional<CheckFinding> finding(Check check, Subject subject) {
        return check.findings().stream().filter(f -> f.subject() == subject).findFirst();
    }

    @Test
    void aPrinterWithTimeEnoughIsReadyAndItsFindingsAreRankedByWhatTheyCost() {
        Check check = check(HERON);
        assertThat(check.verdict()).isNotEqualTo(Check.Verdict.NOT_SAFE);
        assertThat(check.margin().saves()).isTrue();
        assertThat(check.findings()).isSortedAccordingTo(CheckFinding.WORST_FIRST);
        assertThat(check.blindSpots()).isNotEmpty();
    }

    @Test
    void theCostOfAResponseIsWhatTheBetterOneWouldGiveBack() {
        Check check = check(HERON);
        TripDesign design = check.design();
        Set<Action> better = design.recommended().orElseThrow().response();
        assertThat(better).isEqualTo(EnumSet.of(Action.HOLD, Action.HEATER_OFF, Action.BLOCK_FAN));
        Margin own = design.standing().orElseThrow().margin();
        Margin other = TripDesign.of(HERON.withResponse(HERON.response().withActions(better)))
                .standing()
                .orElseThrow()
                .margin();
        double gained = ((Margin.Seconds) other).seconds() - ((Margin.Seconds) own).seconds();
        CheckFinding finding = finding(check, Subject.RESPONSE).orElseThrow();
        assertThat(finding.severity()).isEqualTo(Severity.CAUTION);
        assertThat(((Cost.Seconds) finding.cost()).seconds()).isCloseTo(gained, within(0.05));
        assertThat(gained).isGreaterThan(10);
    }

    @Test
    void pastTheLongestReportIntervalTheMarginIsGone() {
        Check check = check(HERON);
        double longest = check.longestReportInterval().orElseThrow();
        assertThat(check.design().marginAt(0.97 * longest).saves()).isTrue();
        assertThat(check.design().marginAt(1.03 * longest).saves()).isFalse();
        // a sheet with that interval is judged alike
        Reading slower = new Reading.Tachometer(2, 0.5, new Reading.Edge(0, 0), 1.05 * longest);
        assertThat(check(HERON.withReading(slower)).verdict()).isEqualTo(Check.Verdict.NOT_SAFE);
    }

    @Test
    void inAHotterRoomThanTheHighestItIsNotSafe() {
        double highest = check(HERON).highestSafeAir().orElseThrow();
        Build hotter = HERON.withHotEnd(HERON.hotEnd().withAir(highest + 0.5));
        assertThat(check(hotter).verdict()).isEqualTo(Check.Verdict.NOT_SAFE);
    }

    @Test
    void aTripBelowTheUnsafeSpeedCostsEverything() {
        Check check = check(HERON.withTrip(new Trip(900, 3, 5)));
        assertThat(check.verdict()).isEqualTo(Check.Verdict.NOT_SAFE);
        CheckFinding first = check.findings().getFirst();
        assertThat(first.subject()).isEqualTo(Subject.TRIP);
        assertThat(first.cost()).isEqualTo(new Cost.Everything());
        assertThat(first.what()).contains("900");
    }

    @Test
    void aTripAboveAHealthyFanIsAnError() {
        Check check = check(HERON.withTrip(new Trip(7600, 3, 5)));
        assertThat(check.design().standing().map(Judged::finding)).contains(Judged.Finding.TRIPS_AT_ONCE);
        assertThat(check.verdict()).isEqualTo(Check.Verdict.NOT_SAFE);
    }

    @Test
    void aReadingThatFoldsWithinTheToleranceIsACaution() {
        // 60 min(d, 1-d) / (p T) = 8333 rpm (derived in docs): above the rated 8000, below the fastest 8800
        Check check = check(HERON.withReading(new Reading.Tachometer(2, 0.5, new Reading.Sampled(1.8e-3), 1)));
        CheckFinding finding = finding(check, Subject.READING).orElseThrow();
        assertThat(finding.severity()).isEqualTo(Severity.CAUTION);
        assertThat(finding.what()).contains("8800").contains("8333");
        assertThat(finding.mend()).contains("1.7");
    }

    @Test
    void withoutASignalTheThirdWireIsWorthWhatItsOwnDesignSays() {
        Build silent = HERON.withReading(new Reading.None()).withoutTrip();
        Check check = check(silent);
        assertThat(check.verdict()).isEqualTo(Check.Verdict.NOT_SAFE);
        Noticing wire = way(check, Noticing.Way.THIRD_WIRE);
        assertThat(wire.margin())
                .isEqualTo(TripDesign.of(HERON.withoutTrip())
                        .standing()
                        .orElseThrow()
                        .margin());
        assertThat(check.withoutSignal().getFirst()).isEqualTo(wire);
    }

    /** Energy: a sink cannot warm faster than by all the heat that flows into it. */
    @Test
    void aColdSideSensorIsNoQuickerThanTheHeatThatFlowsIn() {
        Noticing sensor = way(check(HERON.withReading(new Reading.None()).withoutTrip()), Noticing.Way.COLD_SIDE);
        double core = Math.PI / 4 * 9e-3 * 9e-3 * 24e-3;
        double fins = 10 * Math.PI / 4 * (20e-3 * 20e-3 - 9e-3 * 9e-3) * 1e-3;
        double bore = Math.PI / 4 * 6e-3 * 6e-3 * 8e-3;
        double capacity = SheetExample.metal("aluminium").density()
                * SheetExample.metal("aluminium").specificHeat()
                * (core + fins - bore);
        double heatIn = 2.47;
        assertThat(sensor.noticedAfter().orElseThrow()).isGreaterThan(capacity * WithoutSignal.COLD_SIDE_RISE / heatIn);
        assertThat(sensor.noticedAfter().orElseThrow()).isLessThan(120);
    }

    @Test
    void aPrinterThatStaysFirmWithItsFanStandingNeedsNoSignal() {
        Build cool = HERON.withReading(new Reading.None())
                .withoutTrip()
                .withHotEnd(HERON.hotEnd()
                        .withPlastic(Plastics.named("ABS").orElseThrow(), 245 + 273.15)
                        .withAir(293.15))
                .withResponse(new Response(EnumSet.of(Action.HOLD, Action.HEATER_OFF), 2, 0.5, 0, 0, 0.2));
        Check check = check(cool);
        assertThat(check.margin()).isEqualTo(new Margin.Unlimited());
        assertThat(check.verdict()).isEqualTo(Check.Verdict.READY_WITH_CAUTIONS);
    }

    private static Noticing way(Check check, Noticing.Way way) {
        return check.withoutSignal().stream()
                .filter(n -> n.way() == way)
                .findFirst()
                .orElseThrow();
    }
}
