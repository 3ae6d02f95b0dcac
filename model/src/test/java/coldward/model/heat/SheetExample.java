package coldward.model.heat;

import coldward.model.build.Fan;
import coldward.model.build.Filament;
import coldward.model.build.HotEnd;
import coldward.model.build.HotSide;
import coldward.model.build.Material;
import coldward.model.build.Materials;
import coldward.model.build.Neck;
import coldward.model.build.Plastics;
import coldward.model.build.Shank;
import coldward.model.build.Sink;
import coldward.model.build.Surroundings;
import java.util.List;
import java.util.Optional;

/** The build sheet that the reference model's documented results belong to: PLA, thin neck, round sink, 24 V fan. */
public final class SheetExample {

    private SheetExample() {}

    public static Material metal(String name) {
        return Materials.named(name).orElseThrow();
    }

    /** The example with a titanium neck and shank. */
    public static HotEnd titanium() {
        return with(metal("titanium"), metal("titanium"), 3.0e-3);
    }

    /** The same with stainless steel. */
    public static HotEnd stainless() {
        return with(metal("stainless steel"), metal("stainless steel"), 3.0e-3);
    }

    /** Thin two-metal heat break: stainless neck 2.5 mm thick, copper shank. */
    public static HotEnd twoMetal() {
        return with(metal("stainless steel"), metal("copper"), 2.5e-3);
    }

    public static HotEnd with(Material neck, Material shank, double neckDiameter) {
        return new HotEnd(
                new Surroundings(298.15, Air.STANDARD_PRESSURE),
                Plastics.named("PLA").orElseThrow(),
                235 + 273.15,
                5e-9,
                new Filament(1.75e-3, 0.8),
                new HotSide(50, 12, 0.06, 0.18, 0.005),
                new Neck(List.of(new Neck.Segment(neck, 2.1e-3, neckDiameter)), 2.0e-3, Optional.empty()),
                new Shank(shank, 6e-3, 8e-3, 5000),
                new Sink(metal("aluminium"), 24e-3, 10, 1.0e-3, 20e-3, 9e-3, 0.8, 0.8, 0.01, Optional.empty()),
                new Fan(24, 8000, 0.10, new Fan.Straight(1.7e-3, 35), 28e-3, 16e-3, 0.6, 0.8, 50 + 273.15),
                1.0,
                3e-3);
    }
}
