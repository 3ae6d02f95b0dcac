package coldward.app.command;

import static coldward.app.terminal.Json.put;

import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.app.terminal.WholeFile;
import coldward.figures.Format;
import coldward.figures.PickFigure;
import coldward.figures.TextOptions;
import coldward.figures.TextTable;
import coldward.figures.Theme;
import coldward.model.build.Build;
import coldward.model.wiring.DiodeClass;
import coldward.model.wiring.Part;
import coldward.model.wiring.Wiring;
import coldward.model.wiring.pick.PickMap;
import coldward.model.wiring.pick.Picker;
import coldward.model.wiring.pick.Series;
import coldward.quantity.Dimension;
import coldward.quantity.InputError;
import coldward.quantity.Units;
import coldward.sheet.Classes;
import coldward.sheet.Sheets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** {@code coldward wiring pick SHEET}. */
@Command(
        name = "pick",
        mixinStandardHelpOptions = true,
        description = {
            "Which pull-up and which kind of diode work in every corner, and which pair is best.",
            "Ends with 1 if no pair is allowed. Disconnect the supply before touching wiring."
        },
        footer = {"", "Example:", "  coldward wiring pick heron.yaml --svg pick.svg"})
public final class WiringPickCommand implements Callable<Integer> {

    private static final double LOWEST_OHM = 1e3;
    private static final double HIGHEST_OHM = 1e5;

    private final Terminal terminal;

    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(index = "0", arity = "0..1", paramLabel = "SHEET", description = "the build sheet")
    private @Nullable Path sheet;

    @Option(names = "--pull-up", paramLabel = "NAME", description = "the pull-up to choose (default: the only one)")
    private @Nullable String pullUp;

    @Option(names = "--diode", paramLabel = "NAME", description = "the diode to choose (default: the only one)")
    private @Nullable String diode;

    @Option(
            names = "--series",
            paramLabel = "SERIES",
            defaultValue = "E12",
            description = "preferred values: ${COMPLETION-CANDIDATES} (default ${DEFAULT-VALUE})")
    private Series series = Series.E12;

    @Option(names = "--json", description = "print the result as JSON (docs/outputs.md, schema 'wiring-pick')")
    private boolean json;

    @Option(names = "--svg", paramLabel = "FILE", description = "write the map as SVG")
    private @Nullable Path svg;

    @Option(names = "--narrow", description = "lay the map out for a telephone")
    private boolean narrow;

    @Option(
            names = "--theme",
            paramLabel = "THEME",
            defaultValue = "AUTO",
            description = "ground of the map: ${COMPLETION-CANDIDATES} (default ${DEFAULT-VALUE})")
    private Theme theme = Theme.AUTO;

    public WiringPickCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        CommandLine line = Arguments.line(spec, this);
        if (sheet == null) {
            throw new ParameterException(line, "missing: SHEET, the build sheet");
        }
        Build build = Sheets.read(sheet);
        Wiring wiring = WiringCommand.described(build);
        PickMap map = Picker.map(
                wiring,
                named(wiring, pullUp, Part.PullUp.class, "pull-up", "pull_ups: [{name: r1, resistance: 10 kohm}]"),
                named(
                        wiring,
                        diode,
                        Part.SeriesDiode.class,
                        "diode",
                        "diodes: [{name: d1, class: small-signal Schottky}]"),
                Classes.diodes(),
                series.between(LOWEST_OHM, HIGHEST_OHM),
                WiringCommand.pulses(build));
        String verdict = verdict(map);
        if (svg != null) {
            WholeFile.write(
                    svg,
                    PickFigure.svg(
                            build.printer(),
                            map,
                            verdict,
                            WiringWords.CAUTIONS,
                            narrow ? Format.NARROW : Format.WIDE,
                            theme));
        }
        if (json) {
            terminal.line(Json.text(json(build.printer(), map)));
        } else {
            print(build.printer(), map, verdict);
        }
        return (map.best().isPresent() ? ExitCode.DONE : ExitCode.NOT_SAFE).number();
    }

    private static String named(
            Wiring wiring, @Nullable String name, Class<? extends Part> kind, String words, String example) {
        if (name != null) {
            return name;
        }
        List<Part> found = wiring.parts().stream().filter(kind::isInstance).toList();
        if (found.size() == 1) {
            return found.getFirst().name();
        }
        throw new InputError(
                words,
                found.isEmpty()
                        ? "the sheet's wiring has no %s to choose; add one in its place, for example %s, with its wires"
                                .formatted(words, example)
                        : "the sheet's wiring has %d of them; name one with --%s NAME".formatted(found.size(), words));
    }

    private static String verdict(PickMap map) {
        return map.best()
                .map(c -> "The best pair is %s with a %s diode: at least %s of noise margin in every corner."
                        .formatted(ohms(c.ohm()), c.diode().name(), Units.format(Dimension.VOLTAGE, c.margin(), 2)))
                .orElse("No pull-up works with any of the diodes in every corner; coldward wiring says what is wrong.");
    }

    private static String ohms(double ohm) {
        return Units.format(Dimension.RESISTANCE, ohm, 3);
    }

    private static List<DiodeClass> kinds(PickMap map) {
        return map.cells().stream().map(PickMap.Cell::diode).distinct().toList();
    }

    private void print(String printer, PickMap map, String verdict) {
        terminal.folded(printer + ": " + verdict, "");
        terminal.line();
        List<List<String>> rows = new ArrayList<>();
        for (DiodeClass kind : kinds(map)) {
            List<Double> window = map.window(kind);
            String best = map.best()
                    .filter(c -> c.diode().equals(kind))
                    .map(c -> ohms(c.ohm()))
                    .orElse("");
            rows.add(List.of(
                    kind.name(),
                    window.isEmpty() ? "none" : ohms(window.getFirst()),
                    window.isEmpty() ? "none" : ohms(window.getLast()),
                    best));
        }
        terminal.out()
                .print(new TextTable(
                                List.of(
                                        TextTable.Column.words("diode"),
                                        TextTable.Column.numbers("lowest pull-up"),
                                        TextTable.Column.numbers("highest pull-up"),
                                        TextTable.Column.numbers("best")),
                                rows)
                        .text(new TextOptions(terminal.width(), !terminal.unicode(), terminal.colour())));
        terminal.line();
        terminal.line("CAUTION");
        WiringWords.CAUTIONS.forEach(c -> terminal.folded("  " + c, "  "));
        if (svg != null) {
            terminal.line("Map written to " + svg + ".");
        }
    }

    private static ObjectNode json(String printer, PickMap map) {
        ObjectNode node = Json.object();
        node.put("printer", printer);
        map.best().ifPresent(c -> {
            ObjectNode best = node.putObject("best");
            put(best, "resistance_ohm", c.ohm());
            best.put("diode", c.diode().name());
            put(best, "margin_V", c.margin());
        });
        ArrayNode cells = node.putArray("cells");
        for (PickMap.Cell c : map.cells()) {
            ObjectNode row = cells.addObject();
            put(row, "resistance_ohm", c.ohm());
            row.put("diode", c.diode().name());
            put(row, "margin_V", c.margin());
            ArrayNode errors = row.putArray("errors");
            c.errors().forEach(e -> errors.add(e.code()));
        }
        ArrayNode cautions = node.putArray("cautions");
        WiringWords.CAUTIONS.forEach(cautions::add);
        return node;
    }
}
