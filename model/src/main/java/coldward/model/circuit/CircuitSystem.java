package coldward.model.circuit;

import coldward.model.circuit.Element.Capacitor;
import coldward.model.circuit.Element.CurrentSource;
import coldward.model.circuit.Element.Diode;
import coldward.model.circuit.Element.Resistor;
import coldward.model.circuit.Element.Stage;
import coldward.model.circuit.Element.VoltageSource;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A netlist as equations: unknown are the node voltages, then the currents of the voltage sources. Row {@code i} below
 * {@link #nodes} is the sum of currents that leave node {@code i}; the rows after it are {@code V+ - V- - E}.
 */
final class CircuitSystem {

    /** The index of ground. */
    private static final int GROUND = -1;

    /** A part with a law, between two nodes; {@code on} scales its current. */
    record Branch(int from, int to, Law law, Drive on) {}

    /** A capacitor between two nodes. */
    record Plate(int from, int to, double farad) {}

    private record Source(int from, int to, int row, Drive volts) {}

    private final Netlist netlist;
    private final Map<String, Integer> index = new LinkedHashMap<>();
    private final List<Branch> branches = new ArrayList<>();
    private final List<Plate> plates = new ArrayList<>();
    private final List<Source> sources = new ArrayList<>();
    private final double[][] linear;
    private final double[] injected;

    /** Unknown voltages, inner nodes of diodes included. */
    final int nodes;

    /** All unknowns. */
    final int unknowns;

    CircuitSystem(Netlist netlist) {
        this.netlist = netlist;
        for (Element element : netlist.elements()) {
            at(element.from());
            at(element.to());
        }
        int named = index.size();
        int inner = 0;
        int rows = 0;
        for (Element element : netlist.elements()) {
            inner += switch (element) {
                case Diode diode -> diode.model().ohm() > 0 ? 1 : 0;
                case Stage stage -> stage.back().filter(m -> m.ohm() > 0).isPresent() ? 1 : 0;
                default -> 0;
            };
            rows += element instanceof VoltageSource ? 1 : 0;
        }
        nodes = named + inner;
        unknowns = nodes + rows;
        linear = new double[unknowns][unknowns];
        injected = new double[unknowns];
        for (int i = 0; i < named; i++) {
            linear[i][i] = Netlist.LEAK;
        }
        int nextInner = named;
        int nextRow = nodes;
        for (Element element : netlist.elements()) {
            int from = at(element.from());
            int to = at(element.to());
            switch (element) {
                case Resistor r -> conductance(linear, from, to, 1 / r.ohm());
                case VoltageSource s -> {
                    incidence(from, nextRow, 1);
                    incidence(to, nextRow, -1);
                    sources.add(new Source(from, to, nextRow++, s.volts()));
                }
                case CurrentSource s -> {
                    inject(from, s.amperes());
                    inject(to, -s.amperes());
                }
                case Capacitor c -> plates.add(new Plate(from, to, c.farad()));
                case Diode d -> nextInner = diode(from, to, d.model(), nextInner);
                case Stage s -> {
                    branch(from, to, new Law.OfStage(s.model()), s.on());
                    if (s.back().isPresent()) {
                        nextInner = diode(to, from, s.back().get(), nextInner);
                    }
                }
            }
        }
    }

    private int at(String node) {
        return node.equals(Netlist.GROUND) ? GROUND : index.computeIfAbsent(node, _ -> index.size());
    }

    private int diode(int from, int to, DiodeModel model, int nextInner) {
        Law law = new Law.OfJunction(model.at(netlist.celsius()));
        if (model.ohm() > 0) {
            conductance(linear, from, nextInner, 1 / model.ohm());
            branch(nextInner, to, law, Drive.steady(1));
            return nextInner + 1;
        }
        branch(from, to, law, Drive.steady(1));
        return nextInner;
    }

    private void branch(int from, int to, Law law, Drive on) {
        conductance(linear, from, to, Netlist.LEAK);
        branches.add(new Branch(from, to, law, on));
    }

    private void incidence(int node, int row, double sign) {
        if (node != GROUND) {
            linear[node][row] += sign;
            linear[row][node] += sign;
        }
    }

    private void inject(int node, double leaving) {
        if (node != GROUND) {
            injected[node] += leaving;
        }
    }

    List<Branch> branches() {
        return branches;
    }

    List<Plate> plates() {
        return plates;
    }

    /** Adds a conductance between two nodes. */
    static void conductance(double[][] matrix, int from, int to, double siemens) {
        if (from != GROUND) {
            matrix[from][from] += siemens;
        }
        if (to != GROUND) {
            matrix[to][to] += siemens;
        }
        if (from != GROUND && to != GROUND) {
            matrix[from][to] -= siemens;
            matrix[to][from] -= siemens;
        }
    }

    /** Adds a current that leaves {@code from} and enters {@code to}. */
    static void current(double[] sum, int from, int to, double amperes) {
        if (from != GROUND) {
            sum[from] += amperes;
        }
        if (to != GROUND) {
            sum[to] -= amperes;
        }
    }

    /** V across two nodes. */
    static double across(double[] x, int from, int to) {
        return (from == GROUND ? 0 : x[from]) - (to == GROUND ? 0 : x[to]);
    }

    /**
     * The parts whose current is proportional to voltage, and the sources: their matrix into {@code matrix}, the sum of
     * currents at {@code x} into {@code sum}.
     *
     * @param t s, for what the sources do
     * @param share of the sources' full strength
     * @param extra S of additional leakage from every node to ground
     */
    void linear(double[] x, double t, double share, double extra, double[][] matrix, double[] sum) {
        for (int i = 0; i < unknowns; i++) {
            double[] row = linear[i];
            double s = injected[i] * share;
            for (int j = 0; j < unknowns; j++) {
                s += row[j] * x[j];
            }
            System.arraycopy(row, 0, matrix[i], 0, unknowns);
            if (i < nodes) {
                matrix[i][i] += extra;
                s += extra * x[i];
            }
            sum[i] = s;
        }
        for (Source source : sources) {
            sum[source.row()] -= source.volts().value(t) * share;
        }
    }

    /** Times after 0 at which something jumps, ascending. */
    double[] jumps() {
        return java.util.stream.Stream.concat(
                        sources.stream().map(Source::volts), branches.stream().map(Branch::on))
                .filter(d -> !d.steady())
                .mapToDouble(Drive::at)
                .filter(t -> t > 0)
                .distinct()
                .sorted()
                .toArray();
    }

    /** Where a node stands among the unknowns; empty for ground and unknown names. */
    java.util.OptionalInt unknown(String node) {
        Integer i = index.get(node);
        return i == null ? java.util.OptionalInt.empty() : java.util.OptionalInt.of(i);
    }

    /** Node names, in the order of the unknowns. */
    List<String> names() {
        return List.copyOf(index.keySet());
    }

    /** Voltages and currents of a state at time {@code t}; capacitors carry {@code plateCurrents}. */
    OperatingPoint point(double[] x, double t, double[] plateCurrents) {
        Map<String, Double> voltages = new LinkedHashMap<>();
        voltages.put(Netlist.GROUND, 0.0);
        index.forEach((name, i) -> voltages.put(name, x[i]));
        Map<String, Double> currents = new LinkedHashMap<>();
        int branch = 0;
        int plate = 0;
        int source = 0;
        for (Element element : netlist.elements()) {
            double amperes = switch (element) {
                case Resistor r -> across(x, at(r.from()), at(r.to())) / r.ohm();
                case VoltageSource s -> x[sources.get(source++).row()];
                case CurrentSource s -> s.amperes();
                case Capacitor c -> plateCurrents[plate++];
                case Diode d -> through(branches.get(branch++), x, t);
                case Stage s -> {
                    double own = through(branches.get(branch++), x, t);
                    yield s.back().isPresent() ? own - through(branches.get(branch++), x, t) : own;
                }
            };
            currents.put(element.name(), amperes);
        }
        return new OperatingPoint(voltages, currents);
    }

    private static double through(Branch branch, double[] x, double t) {
        double v = across(x, branch.from(), branch.to());
        return branch.law().current(v) * branch.on().value(t) + Netlist.LEAK * v;
    }
}
