package coldward.model.circuit;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.circuit.Element.Capacitor;
import coldward.model.circuit.Element.CurrentSource;
import coldward.model.circuit.Element.Diode;
import coldward.model.circuit.Element.Resistor;
import coldward.model.circuit.Element.Stage;
import coldward.model.circuit.Element.StageModel;
import coldward.model.circuit.Element.VoltageSource;
import coldward.model.circuit.RandomCircuits.Case;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Runs circuits through ngspice, all in one batch. Diodes are its own; stages and leakage are behavioural sources with the
 * formula of our docs. Each element's current is read from a source of 0 V in its first lead.
 */
final class Ngspice {

    private static final Pattern VALUE = Pattern.compile("^(\\S+)\\s+=\\s+([-+0-9.e]+)");

    private Ngspice() {}

    /** What it says of each case by its own names: {@code v(node)}, {@code i(element)}, {@code crossing}. */
    static List<Map<String, Double>> run(List<Case> cases, Path directory, int seconds)
            throws IOException, InterruptedException {
        StringBuilder main = new StringBuilder("* all\n.control\nset numdgt=12\nset noaskquit\n");
        List<Map<String, String>> names = new ArrayList<>();
        for (int i = 0; i < cases.size(); i++) {
            Case one = cases.get(i);
            Map<String, String> ours = new HashMap<>();
            Path file = directory.resolve("case" + i + ".cir");
            Files.writeString(file, deck(one.netlist(), ours), StandardCharsets.UTF_8);
            names.add(ours);
            main.append("source ").append(file).append('\n');
            main.append("echo CASE ").append(i).append("\nop\nprint all\n");
            one.crossing().ifPresent(c -> {
                String node = nodeNames(one.netlist()).get(c.node());
                main.append(
                        String.format(Locale.ROOT, "tran %.9e %.9e 0 %.9e\n", c.end() / 2000, c.end(), c.end() / 2000));
                main.append(String.format(
                        Locale.ROOT, "meas tran crossing when v(%s)=%.12e cross=1\n", node, c.threshold()));
            });
            main.append("remcirc\n");
        }
        main.append("quit\n.endc\n.end\n");
        Path file = directory.resolve("main.cir");
        Files.writeString(file, main, StandardCharsets.UTF_8);
        Path out = directory.resolve("out");
        Process process;
        try {
            process = new ProcessBuilder("ngspice", "-b", file.toString())
                    .directory(directory.toFile())
                    .redirectOutput(out.toFile())
                    .redirectErrorStream(true)
                    .start();
        } catch (IOException e) {
            throw new AssertionError("ngspice is missing (Debian: ngspice); ./verify installs it.", e);
        }
        boolean ended = process.waitFor(seconds, TimeUnit.SECONDS);
        if (!ended) {
            process.destroyForcibly();
        }
        assertThat(ended).as("ngspice ends within %d s", seconds).isTrue();
        List<Map<String, Double>> results = new ArrayList<>();
        for (String line : Files.readAllLines(out, StandardCharsets.UTF_8)) {
            if (line.startsWith("CASE ")) {
                results.add(new HashMap<>());
            }
            Matcher matcher = VALUE.matcher(line);
            if (!results.isEmpty() && matcher.find()) {
                String its = matcher.group(1);
                String our = names.get(results.size() - 1).getOrDefault(its, its);
                results.getLast().put(our, Double.parseDouble(matcher.group(2)));
            }
        }
        assertThat(results).as(Files.readString(out)).hasSize(cases.size());
        return results;
    }

    private static Map<String, String> nodeNames(Netlist netlist) {
        Map<String, String> names = new HashMap<>();
        names.put(Netlist.GROUND, "0");
        for (Element e : netlist.elements()) {
            names.computeIfAbsent(e.from(), _ -> "n" + names.size());
            names.computeIfAbsent(e.to(), _ -> "n" + names.size());
        }
        return names;
    }

    private static String deck(Netlist netlist, Map<String, String> ours) {
        Map<String, String> nodes = nodeNames(netlist);
        nodes.forEach((our, its) -> ours.put(its, "v(" + our + ")"));
        StringBuilder deck = new StringBuilder("* case\n");
        deck.append(String.format(
                Locale.ROOT,
                ".options reltol=1e-6 abstol=1e-14 vntol=1e-9 chgtol=1e-18 gmin=1e-12 rshunt=1e12 temp=%.6f tnom=25\n",
                netlist.celsius()));
        int k = 0;
        for (Element e : netlist.elements()) {
            String to = Objects.requireNonNull(nodes.get(e.to()));
            String lead = "x" + k;
            deck.append("VM%d %s %s 0\n".formatted(k, nodes.get(e.from()), lead));
            ours.put("vm" + k + "#branch", "i(" + e.name() + ")");
            switch (e) {
                case Resistor r -> line(deck, "R%d %s %s %.12e", k, lead, to, r.ohm());
                case VoltageSource s -> line(deck, "V%d %s %s %s", k, lead, to, drive(s.volts()));
                case CurrentSource s -> line(deck, "I%d %s %s %.12e", k, lead, to, s.amperes());
                case Capacitor c -> line(deck, "C%d %s %s %.12e", k, lead, to, c.farad());
                case Diode d -> diode(deck, "d" + k, lead, to, d.model(), netlist.celsius());
                case Stage s -> {
                    line(deck, "VON%d on%d 0 %s", k, k, drive(s.on()));
                    line(
                            deck,
                            "B%d %s %s I=v(on%d)*(%s)",
                            k,
                            lead,
                            to,
                            k,
                            law(s.model(), "(v(" + lead + "," + to + "))"));
                    int number = k;
                    s.back().ifPresent(m -> diode(deck, "b" + number, to, lead, m, netlist.celsius()));
                }
            }
            k++;
        }
        return deck.append(".end\n").toString();
    }

    @SuppressWarnings("AnnotateFormatMethod")
    private static void line(StringBuilder deck, String format, Object... arguments) {
        deck.append(String.format(Locale.ROOT, format, arguments)).append('\n');
    }

    private static String drive(Drive drive) {
        return drive.steady()
                ? String.format(Locale.ROOT, "%.12e", drive.before())
                : String.format(
                        Locale.ROOT,
                        "PWL(0 %.12e %.9e %.12e %.9e %.12e)",
                        drive.before(),
                        drive.at(),
                        drive.before(),
                        drive.at() + 1e-9,
                        drive.after());
    }

    private static String law(StageModel m, String v) {
        String over = m.offset() == 0
                ? v
                : String.format(
                        Locale.ROOT,
                        "((%1$s-%2$.12e)/%3$.6e > 30 ? %1$s-%2$.12e : %3$.6e*ln(1+exp(min((%1$s-%2$.12e)/%3$.6e,30)))) - %3$.6e*ln(1+exp(-%2$.12e/%3$.6e))",
                        v,
                        m.offset(),
                        StageModel.ROUNDING);
        return String.format(
                Locale.ROOT, "((%1$s)/%2$.12e)/sqrt(1+(((%1$s)/%2$.12e)/%3$.12e)^2)", over, m.ohm(), m.limit());
    }

    private static void diode(StringBuilder deck, String name, String from, String to, DiodeModel m, double celsius) {
        String junction = m.ohm() > 0 ? name + "j" : from;
        if (m.ohm() > 0) {
            line(deck, "R%s %s %s %.12e", name, from, junction, m.ohm());
        }
        line(deck, "D%s %s %s m%s", name, junction, to, name);
        line(
                deck,
                ".model m%s d(is=%.12e n=%.12e rs=0 eg=%.6f xti=%.6f cjo=0 tt=0)",
                name,
                m.saturation(),
                m.ideality(),
                m.gap(),
                m.exponent());
        if (m.leak() > 0) {
            double leak = m.leak() * Math.pow(2, (celsius - 25) / m.doubling());
            line(deck, "B%s %s %s I=%.12e*tanh(v(%s,%s)/%.12e)", name, junction, to, leak, junction, to, m.knee());
        }
    }
}
