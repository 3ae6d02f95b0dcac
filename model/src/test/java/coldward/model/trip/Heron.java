package coldward.model.trip;

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
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The example sheet's printer as records. */
public final class Heron {

    /** Its latencies: hold 2 s, heater-off 0.5 s, link 0.2 s. */
    public static final Response RESPONSE = new Response(EnumSet.of(Action.HOLD, Action.HEATER_OFF), 2, 0.5, 0, 0, 0.2);

    private Heron() {}

    /** With another reading and another tolerance of the rated speed (8000 rpm). */
    public static Build with(Reading reading, double speedTolerance) {
        HotEnd hotEnd = new HotEnd(
                new Surroundings(298.15, 101_325),
                Plastics.named("PLA").orElseThrow(),
                508.15,
                5e-9,
                new Filament(1.75e-3, 0.8),
                new HotSide(50, 12, 0.06, 0.18, 0.005),
                new Neck(
                        List.of(new Neck.Segment(Materials.named("titanium").orElseThrow(), 2.1e-3, 3e-3)),
                        2e-3,
                        Optional.empty()),
                new Shank(Materials.named("titanium").orElseThrow(), 6e-3, 8e-3, 5000),
                new Sink(
                        Materials.named("aluminium").orElseThrow(),
                        24e-3,
                        10,
                        1e-3,
                        20e-3,
                        9e-3,
                        0.8,
                        0.8,
                        0.01,
                        Optional.empty()),
                new Fan(24, 8000, speedTolerance, new Fan.Straight(1.7e-3, 35), 28e-3, 16e-3, 0.6, 0.8, 323.15),
                1,
                3e-3);
        return new Build("heron", hotEnd, reading, Optional.empty(), RESPONSE, 1, Map.of(), Map.of());
    }
}
