package coldward.model.heat;

import coldward.model.build.Fan;
import coldward.model.build.Filament;
import coldward.model.build.HotEnd;
import coldward.model.build.HotSide;
import coldward.model.build.Material;
import coldward.model.build.Neck;
import coldward.model.build.Plastic;
import coldward.model.build.Shank;
import coldward.model.build.Sink;
import coldward.model.build.Surroundings;
import coldward.model.build.Uncertain;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Hot ends stripped to one piece of physics, so that a textbook's answer applies: everything else conducts or holds
 * nothing, or everything.
 */
final class PlainBuilds {

    /** Next to nothing where a record wants a number above zero. */
    static final double NOTHING = 1e-12;

    /** Next to nothing of length, m: less than an atom, so that a part is not there. */
    static final double NO_LENGTH = 1e-12;

    static final double AIR = 298.15;
    static final double BLOCK = 508.15;

    private PlainBuilds() {}

    /** No exchange between wall and filament. */
    static Factors uncoupled() {
        Map<Uncertain, Double> values = new EnumMap<>(Uncertain.class);
        values.put(Uncertain.COUPLING, 0.0);
        return new Factors(values);
    }

    /** A block that holds its heat but for one conductance to the air. */
    static HotEnd blockAlone(double heatCapacity, double loss) {
        Material air = new Material("nothing", NOTHING, 1, 1);
        Neck neck = neck(air, 2e-3, 3e-3);
        Shank shank = new Shank(air, 6e-3, 1e-3, NOTHING);
        return hotEnd(plastic(NOTHING, 1, 1), 0, new HotSide(1, heatCapacity, loss, loss, 0), neck, shank, sink(1e-3));
    }

    /**
     * The inner wall as a plane wall of a thickness, convection on the block's side, insulated at the other. The threads
     * in the block take the part of the convection: their contact is chosen so that {@code 1/(R_blk A) = h}.
     */
    static HotEnd planeWall(Material material, double thickness, double h) {
        double bore = 2e-3;
        double outer = 3e-3;
        double shankDiameter = 3.2e-3;
        double area = Math.PI / 4 * (outer * outer - bore * bore);
        double shankArea = Math.PI / 4 * (shankDiameter * shankDiameter - bore * bore);
        double perMetre = h * area * h * area / (material.conductivity() * shankArea);
        double metal = Math.log(2 * shankDiameter / (shankDiameter + bore)) / (2 * Math.PI * material.conductivity());
        double contact = 1 / (Math.PI * shankDiameter * (1 / perMetre - metal));
        return hotEnd(
                plastic(NOTHING, 1, 1),
                0,
                new HotSide(1, 1, 1, 1, 0),
                neck(material, thickness, outer),
                new Shank(material, shankDiameter, NO_LENGTH, contact),
                sink(1e-3));
    }

    /**
     * A filament in a long, empty tube.
     *
     * @param diffusivity m2/s
     * @param velocity m/s towards the block
     */
    static HotEnd filament(double diffusivity, double velocity, double length) {
        Material nothing = new Material("nothing", NOTHING, 1, 1);
        double rod = 1.75e-3;
        return hotEnd(
                plastic(1e6 * diffusivity, 1000, 1000),
                velocity * Math.PI / 4 * rod * rod,
                new HotSide(1, 1, 1, 1, 0),
                neck(nothing, length, 3e-3),
                new Shank(nothing, 6e-3, NO_LENGTH, NOTHING),
                sink(1e-3));
    }

    static Neck neck(Material material, double length, double diameter) {
        return new Neck(List.of(new Neck.Segment(material, length, diameter)), 2e-3, Optional.empty());
    }

    /** A sink that is always as warm as the air. */
    static Sink sink(double length) {
        Material core = new Material("core", 1e6, 1, 1);
        return new Sink(core, length, 1, length / 2, 20e-3, 9e-3, 0, 0, 0, Optional.of(new Sink.Measured(1e9, 0.9e9)));
    }

    static Plastic plastic(double conductivity, double density, double specificHeat) {
        return new Plastic("rod", conductivity, density, specificHeat, 333.15, 443.15, OptionalDouble.empty());
    }

    static HotEnd hotEnd(Plastic plastic, double feed, HotSide hotSide, Neck neck, Shank shank, Sink sink) {
        return new HotEnd(
                new Surroundings(AIR, Air.STANDARD_PRESSURE),
                plastic,
                BLOCK,
                feed,
                new Filament(1.75e-3, 0.8),
                hotSide,
                neck,
                shank,
                sink,
                new Fan(24, 8000, 0.1, new Fan.Straight(1.7e-3, 35), 28e-3, 16e-3, 0.6, 0.8, 323.15),
                1,
                sink.length() / 2);
    }
}
