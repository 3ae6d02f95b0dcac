package coldward.model.design;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.model.build.Build;
import coldward.model.build.Reading;
import coldward.model.build.Reading.Tachometer;
import coldward.model.build.Trip;
import coldward.model.trip.FailureMode;
import coldward.model.trip.HealthyFan;
import coldward.model.trip.HealthyReports;
import coldward.model.trip.Heron;
import coldward.model.trip.Margin;
import coldward.model.trip.TripChoice;
import coldward.model.verdict.Assessment;
import coldward.quantity.InputError;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class TripDesignTest {

    private static final Tachometer EDGES = new Tachometer(2, 0.5, new Reading.Edge(0, 0), 1);
    private static final Build HERON = Heron.with(EDGES, 0.1);

    @Test
    void takesTheChoiceThatTheRaceTakes() {
        TripDesign design = TripDesign.of(HERON);
        Judged judged = design.recommended().orElseThrow();
        assertThat(judged.trip()).isEqualTo(Assessment.of(HERON).trip().orElseThrow());
        assertThat(judged.trip().speed()).isGreaterThanOrEqualTo(design.lowestTripSpeed());
        assertThat(judged.spurious().perYear(HERON.hoursPerYear())).isLessThanOrEqualTo(HERON.spuriousTripsPerYear());
        assertThat(judged.modes()).extracting(Judged.ModeBudget::mode).containsExactly(FailureMode.values());
        assertThat(judged.margin()).isEqualTo(judged.binding().margin());
        assertThat(design.safe()).isTrue();
    }

    @Test
    void drawsJudgeByTheWorstTwentieth() {
        TripDesign nominal = TripDesign.of(HERON);
        FailureDraws draws = nominal.draws(3);
        TripDesign drawn =
                nominal.with(IntStream.range(0, 20).mapToObj(draws::at).toList());
        assertThat(drawn.recommended().orElseThrow().trip())
                .isEqualTo(nominal.recommended().orElseThrow().trip());
        assertThat(drawn.recommended().orElseThrow().margin())
                .isLessThan(nominal.recommended().orElseThrow().margin());
    }

    @Test
    void aTripBelowTheUnsafeSpeedSavesNothing() {
        TripDesign design = TripDesign.of(HERON.withTrip(new Trip(500, 3, 5)));
        Judged own = design.standing().orElseThrow();
        assertThat(own.finding()).isEqualTo(Judged.Finding.BELOW_UNSAFE);
        assertThat(own.margin()).isEqualTo(new Margin.NothingSaves());
        assertThat(design.safe()).isFalse();
        assertThat(design.recommended().orElseThrow().safe()).isTrue();
    }

    @Test
    void aTripAboveTheHealthyFanIsFound() {
        Judged own =
                TripDesign.of(HERON.withTrip(new Trip(7500, 3, 5))).standing().orElseThrow();
        assertThat(own.finding()).isEqualTo(Judged.Finding.TRIPS_AT_ONCE);
    }

    @Test
    void aFanThatIsSlowedBelowItsTripIsAnError() {
        DesignSettings slowed = DesignSettings.USUAL.withLowestSpeed(1000);
        assertThatThrownBy(() -> TripDesign.of(HERON, HealthyFan.ofSheet(HERON), slowed))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("lowest permitted speed is 1000 rpm");
    }

    @Test
    void aRecordingNarrowsTheTrip() {
        HealthyFan known = HealthyFan.ofRecording(new HealthyReports(8000, 60, 0.3, 0));
        TripDesign design = TripDesign.of(HERON, known, DesignSettings.USUAL);
        assertThat(design.recommended().orElseThrow().trip().confirmations()).isEqualTo(1);
        assertThat(design.lowestTripSpeed()).isLessThan(TripDesign.of(HERON).lowestTripSpeed());
    }

    @Test
    void withoutReportsThereIsNothingToTripOn() {
        TripDesign design = TripDesign.of(Heron.with(new Reading.None(), 0.1));
        assertThat(design.choice()).isEqualTo(new TripChoice.NoReading());
        assertThat(design.recommended()).isEmpty();
        assertThat(design.map()).isEmpty();
        assertThat(design.safe()).isFalse();
    }

    /** Reports every 60 s come too late or nearly so: faster reports are among what helps, best first. */
    @Test
    void changesAreRankedByWhatTheyBuy() {
        Build slow = Heron.with(new Tachometer(2, 0.5, new Reading.Edge(0, 0), 60), 0.1);
        TripDesign design = TripDesign.of(slow);
        var changes = design.changes();
        assertThat(changes).isNotEmpty();
        assertThat(changes).extracting(a -> a.change()).anyMatch(c -> c.contains("reports every 30 s"));
        for (int i = 0; i + 1 < changes.size(); i++) {
            assertThat(changes.get(i).margin())
                    .isGreaterThanOrEqualTo(changes.get(i + 1).margin());
        }
        Margin present = design.standing().orElseThrow().margin();
        assertThat(changes).allSatisfy(a -> assertThat(a.margin()).isGreaterThan(present));
    }

    @Test
    void theMapHoldsTheChoicesNeighbourhood() {
        TripDesign design = TripDesign.of(HERON);
        TripMap map = design.map().orElseThrow();
        for (int k = 1; k <= map.highest().size(); k++) {
            int confirmations = k;
            List<TripMap.Cell> row = map.cells().stream()
                    .filter(c -> c.confirmations() == confirmations)
                    .toList();
            double before = 0;
            for (TripMap.Cell cell : row) {
                assertThat(cell.spurious().perThousandHours()).isGreaterThanOrEqualTo(before * (1 - 1e-6));
                before = cell.spurious().perThousandHours();
            }
        }
    }
}
