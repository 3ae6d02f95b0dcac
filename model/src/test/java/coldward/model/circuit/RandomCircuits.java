package coldward.model.circuit;

import coldward.model.circuit.Element.Capacitor;
import coldward.model.circuit.Element.CurrentSource;
import coldward.model.circuit.Element.Diode;
import coldward.model.circuit.Element.Resistor;
import coldward.model.circuit.Element.Stage;
import coldward.model.circuit.Element.StageModel;
import coldward.model.circuit.Element.VoltageSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.random.RandomGenerator;

/** Seeded circuits: the cases of the wiring model at random sizes, and parts thrown together. */
final class RandomCircuits {

    static final String GROUND = Netlist.GROUND;

    /** A case to compare: a circuit and, where it moves, the crossing to time. */
    record Case(String name, Netlist netlist, Optional<Crossing> crossing) {}

    /** When a node passes a threshold. */
    record Crossing(String node, double threshold, double end) {}

    private RandomCircuits() {}

    private static double between(RandomGenerator random, double low, double high) {
        return low * Math.pow(high / low, random.nextDouble());
    }

    /** From a good small Schottky to a silicon diode and a leaky power part. */
    static DiodeModel diode(RandomGenerator random) {
        return switch (random.nextInt(3)) {
            case 0 -> new DiodeModel(between(random, 3e-8, 3e-7), 1.3, between(random, 1, 4), 0.69, 2, 2e-6, 0.5, 11);
            case 1 ->
                new DiodeModel(between(random, 1e-9, 5e-9), 1.8, between(random, 0.3, 1), 1.11, 3, 2.5e-8, 0.5, 10);
            default ->
                new DiodeModel(between(random, 1e-6, 1e-5), 1.05, between(random, 0.03, 0.2), 0.69, 2, 3e-4, 0.5, 12);
        };
    }

    static StageModel stage(RandomGenerator random) {
        double offset = random.nextBoolean() ? 0 : between(random, 0.02, 0.2);
        return StageModel.through(offset, offset + between(random, 0.1, 0.5), 5e-3, between(random, 7e-3, 0.05));
    }

    /** One of ten cases, {@code kind} 0 to 9. */
    static Case wiring(int kind, RandomGenerator random) {
        double celsius = random.nextBoolean() ? 0 : 60;
        double rail = (random.nextBoolean() ? 24 : 12) * (1 + 0.05 * (random.nextInt(3) - 1));
        double logic = (random.nextBoolean() ? 3.3 : 5) * (1 + 0.05 * (random.nextInt(3) - 1));
        boolean portOff = kind == 2 || kind == 3;
        boolean low = kind == 0 || kind == 6;
        List<Element> parts = new ArrayList<>();
        parts.add(new VoltageSource("rail", "rail", GROUND, rail));
        parts.add(new VoltageSource("logic", "logic", GROUND, logic));
        double wire = between(random, 0.02, 2);
        parts.add(new Resistor("plus wire", "rail", "plus", wire));
        parts.add(Element.motor("fan", "plus", "minus", 24, between(random, 0.03, 0.5)));
        parts.add(new Resistor("minus wire", "minus", "port", wire));
        parts.add(new Resistor("port", "port", GROUND, portOff ? 1e8 : 0.05));
        if (kind == 5) {
            return new Case("supply drop", new Netlist(celsius, parts), Optional.empty());
        }
        boolean moving = kind >= 7;
        boolean rising = kind != 8;
        double at = 1e-5;
        Drive drive = moving ? new Drive(rising ? 1 : 0, rising ? 0 : 1, at) : Drive.steady(low ? 1 : 0);
        Optional<DiodeModel> back = Optional.of(new DiodeModel(1e-12, 1.2, 1, 1.11, 3, 0, 1, 10));
        parts.add(new Stage("stage", "third", "minus", stage(random), drive, back));
        boolean withDiode = kind != 2 && kind != 4 && kind != 9;
        if (withDiode) {
            parts.add(new Diode("series", "signal", "third", diode(random)));
        } else {
            parts.add(new Resistor("signal wire", "third", "signal", between(random, 0.05, 2)));
        }
        String pulledTo = kind == 4 ? "rail" : "logic";
        parts.add(new Resistor("pull-up", pulledTo, "signal", between(random, 2e3, 5e4)));
        String input = "signal";
        double end = 0;
        if (moving) {
            double filter = between(random, 300, 3e3);
            double farad = between(random, 1e-10, 2e-8);
            parts.add(new Resistor("filter", "signal", "input", filter));
            parts.add(new Capacitor("filter C", "input", GROUND, farad));
            parts.add(new Capacitor("wire C", "signal", GROUND, between(random, 2e-11, 5e-10)));
            input = "input";
            end = at + 60e3 * (farad + 5e-10) * 4;
        }
        parts.add(new Diode("upper clamp", input, "logic", new DiodeModel(1e-14, 1.05, 20, 1.11, 3, 0, 1, 10)));
        parts.add(new Diode("lower clamp", GROUND, input, new DiodeModel(1e-14, 1.05, 20, 1.11, 3, 0, 1, 10)));
        parts.add(new Resistor("leak", input, GROUND, between(random, 1e6, 1e8)));
        Netlist netlist = new Netlist(celsius, parts);
        return new Case(
                List.of(
                                "low",
                                "open",
                                "back-feed",
                                "off with diode",
                                "pulled to the rail",
                                "",
                                "low again",
                                "rising",
                                "falling",
                                "bare rising")
                        .get(kind),
                netlist,
                moving ? Optional.of(new Crossing("input", logic * 0.45, end)) : Optional.empty());
    }

    /** Parts thrown together without a thought; many make no sense, some have no solution. */
    static Netlist anything(RandomGenerator random) {
        int nodes = 2 + random.nextInt(5);
        int count = 2 + random.nextInt(10);
        List<Element> parts = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            String name = "e" + i;
            String from = node(random.nextInt(nodes));
            String to = node(random.nextInt(nodes));
            parts.add(
                    switch (random.nextInt(9)) {
                        case 0, 1, 2 -> new Resistor(name, from, to, between(random, 1e-2, 1e7));
                        case 3 -> new VoltageSource(name, from, to, random.nextDouble(-30, 30));
                        case 4 -> new CurrentSource(name, from, to, random.nextGaussian() * 0.01);
                        case 5 -> new Capacitor(name, from, to, 1e-9);
                        case 6, 7 -> new Diode(name, from, to, diode(random));
                        default ->
                            new Stage(
                                    name,
                                    from,
                                    to,
                                    stage(random),
                                    Drive.steady(random.nextInt(2)),
                                    random.nextBoolean() ? Optional.of(diode(random)) : Optional.empty());
                    });
        }
        return new Netlist(random.nextDouble(-20, 90), parts);
    }

    private static String node(int i) {
        return i == 0 ? GROUND : "n" + i;
    }
}
