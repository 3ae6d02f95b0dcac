package coldward.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Fan;
import coldward.model.build.Filament;
import coldward.model.build.HotEnd;
import coldward.model.build.HotSide;
import coldward.model.build.Materials;
import coldward.model.build.Neck;
import coldward.model.build.Plastics;
import coldward.model.build.Reading;
import coldward.model.build.Response;
import coldward.model.build.Shank;
import coldward.model.build.Sink;
import coldward.model.build.Surroundings;
import coldward.model.build.Trip;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class SheetsTest {

    static final Path HERON = Path.of("src/test/resources/sheets/heron.yaml");

    @Test
    void theExampleReadsWithItsNumbers() {
        Build heron = Sheets.read(HERON);
        var titanium = Materials.named("titanium").orElseThrow();
        HotEnd expected = new HotEnd(
                new Surroundings(298.15, 101_325),
                Plastics.named("PLA").orElseThrow(),
                508.15,
                5e-9,
                new Filament(0.00175, 0.8),
                new HotSide(50, 12, 0.06, 0.18, 0.005),
                new Neck(List.of(new Neck.Segment(titanium, 0.0021, 0.003)), 0.002, Optional.empty()),
                new Shank(titanium, 0.006, 0.008, 5000),
                new Sink(
                        Materials.named("aluminium").orElseThrow(),
                        0.024,
                        10,
                        0.001,
                        0.02,
                        0.009,
                        0.8,
                        0.8,
                        0.01,
                        Optional.empty()),
                new Fan(24, 8000, 0.1, new Fan.Straight(0.0017, 35), 0.028, 0.016, 0.6, 0.8, 323.15),
                1.0,
                0.003);
        assertThat(heron.hotEnd()).isEqualTo(expected);
        assertThat(heron.printer()).isEqualTo("heron");
        assertThat(heron.reading()).isEqualTo(new Reading.Tachometer(2, 0.5, new Reading.Sampled(0.001), 1));
        assertThat(heron.trip()).contains(new Trip(5200, 3, 5));
        assertThat(heron.response())
                .isEqualTo(
                        new Response(EnumSet.of(Action.HOLD, Action.HEATER_OFF, Action.BLOCK_FAN), 2, 0.5, 1, 1, 0.2));
        assertThat(heron.spuriousTripsPerYear()).isEqualTo(1);
        assertThat(heron.restsOnClasses()).isFalse();
    }
}
