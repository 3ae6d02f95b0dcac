package coldward.app.command;

import static coldward.app.terminal.Json.celsius;
import static coldward.app.terminal.Json.put;

import coldward.app.race.Sentences;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.ProgressLine;
import coldward.app.terminal.Terminal;
import coldward.figures.TextOptions;
import coldward.figures.TextTable;
import coldward.model.build.Build;
import coldward.model.build.HotEnd;
import coldward.model.build.Plastic;
import coldward.model.build.Plastics;
import coldward.model.build.Response;
import coldward.model.heat.Deadline;
import coldward.model.heat.Race;
import coldward.model.heat.Regime;
import coldward.model.trip.Margin;
import coldward.model.verdict.Assessment;
import coldward.model.verdict.Assessment.Outcome;
import coldward.quantity.InputError;
import coldward.sheet.Classes;
import coldward.sheet.HeatBreak;
import coldward.sheet.NamedFan;
import coldward.sheet.Sheets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Function;
import me.tongfei.progressbar.ProgressBar;
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

/** {@code coldward choose SHEET}. */
@Command(
        name = "choose",
        mixinStandardHelpOptions = true,
        description = {
            "Other fans, necks and plastics for a sheet, side by side, worst case first.",
            "A row says the air through the fins, the kelvin below softening, the deadline of the best response, the"
                    + " highest safe air, and what limits it.",
            "Without options: all known necks with the sheet's own fan and plastic."
        },
        footer = {
            "",
            "Example:",
            "  coldward choose heron.yaml --necks 'short steel,thin titanium' --plastics PLA,PETG",
            "  coldward choose heron.yaml --fans fans.yaml"
        })
public final class ChooseCommand implements Callable<Integer> {

    private static final int MOST_ROWS = 500;
    /** A nozzle is at least this much above the temperature at which the plastic begins to feed; common practice. */
    private static final double ABOVE_FEEDING = 30;

    private static final String OWN = "as on the sheet";

    private final Terminal terminal;

    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(index = "0", paramLabel = "SHEET", description = "the build sheet")
    private Path sheet = Path.of("");

    @Option(names = "--fans", paramLabel = "FILE", description = "a YAML list of fans as on a sheet, each with a name")
    private @Nullable Path fans;

    @Option(names = "--necks", paramLabel = "CLASSES", split = ",", description = "classes of heat breaks, or 'all'")
    private @Nullable List<String> necks;

    @Option(names = "--plastics", paramLabel = "NAMES", split = ",", description = "plastics, or 'all'")
    private @Nullable List<String> plastics;

    @Option(names = "--json", description = "print the table as JSON (docs/outputs.md, schema 'choose')")
    private boolean json;

    public ChooseCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    /** One candidate, assessed; or why it cannot be. */
    private record Row(
            String neck,
            String fan,
            String plastic,
            double nozzle,
            double airThroughFins,
            double belowSoftening,
            Optional<Assessment> assessment,
            Deadline deadline,
            Optional<Margin> margin,
            String limit) {}

    @Override
    public Integer call() {
        CommandLine line = Arguments.line(spec, this);
        Build build = Sheets.read(sheet);
        List<HeatBreak> breaks = breaks(line, build.hotEnd());
        List<NamedFan> fanList = new ArrayList<>();
        if (fans == null) {
            fanList.add(new NamedFan(OWN, build.hotEnd().fan()));
        } else {
            fanList.addAll(Sheets.fans(fans));
        }
        List<Plastic> plasticList = plastics(line, build.hotEnd());
        long count = (long) breaks.size() * fanList.size() * plasticList.size();
        if (count > MOST_ROWS) {
            throw new ParameterException(
                    line, count + " combinations are more than " + MOST_ROWS + "; name fewer fans, necks or plastics");
        }
        List<Row> rows = new ArrayList<>();
        try (ProgressBar bar = ProgressLine.bar("candidates", count, terminal)) {
            for (Plastic plastic : plasticList) {
                for (HeatBreak heatBreak : breaks) {
                    for (NamedFan fan : fanList) {
                        rows.add(row(build, heatBreak, fan, plastic));
                        bar.step();
                    }
                }
            }
        }
        rows.sort(Comparator.comparing(Row::margin, Margin.worstFirst()).thenComparingDouble(Row::belowSoftening));
        if (json) {
            terminal.line(Json.text(json(build, rows)));
        } else {
            print(build, rows);
        }
        boolean anySafe = rows.stream().flatMap(r -> r.margin().stream()).anyMatch(Margin::saves);
        return (anySafe ? ExitCode.DONE : ExitCode.NOT_SAFE).number();
    }

    private List<HeatBreak> breaks(CommandLine line, HotEnd own) {
        List<HeatBreak> found = new ArrayList<>();
        boolean nothingNamed = fans == null && plastics == null && necks == null;
        if (necks == null) {
            found.add(new HeatBreak(OWN, own.neck(), own.shank(), 0));
        }
        List<String> names = nothingNamed ? List.of("all") : necks == null ? List.of() : necks;
        for (String name : names) {
            List<String> wanted = name.strip().equals("all")
                    ? Classes.necks().stream().map(Classes.Part::name).toList()
                    : List.of(name.strip());
            for (String each : wanted) {
                try {
                    found.add(Sheets.neck(each, own));
                } catch (InputError e) {
                    throw new ParameterException(line, "--necks: " + e.getMessage(), e);
                }
            }
        }
        return found;
    }

    private List<Plastic> plastics(CommandLine line, HotEnd own) {
        if (plastics == null) {
            return List.of(own.plastic());
        }
        List<Plastic> found = new ArrayList<>();
        for (String name : plastics) {
            if (name.strip().equals("all")) {
                found.addAll(Plastics.all().values());
            } else if (name.strip().equals(own.plastic().name())) {
                found.add(own.plastic());
            } else {
                found.add(Plastics.named(name.strip())
                        .orElseThrow(() -> new ParameterException(
                                line,
                                "--plastics: no plastic '" + name.strip() + "'; known are "
                                        + String.join(", ", Plastics.all().keySet())
                                        + " and the sheet's own")));
            }
        }
        return found;
    }

    private static Row row(Build build, HeatBreak heatBreak, NamedFan fan, Plastic plastic) {
        HotEnd own = build.hotEnd();
        double nozzle = plastic.equals(own.plastic())
                ? own.nozzle()
                : Math.max(own.nozzle(), plastic.feedsAbove() + ABOVE_FEEDING);
        HotEnd hotEnd;
        try {
            hotEnd = own.withPlastic(plastic, nozzle)
                    .withHeatBreak(heatBreak.neck(), heatBreak.shank())
                    .withFan(fan.fan());
        } catch (InputError e) {
            return new Row(
                    heatBreak.name(),
                    fan.name(),
                    plastic.name(),
                    nozzle,
                    0,
                    0,
                    Optional.empty(),
                    Deadline.never(),
                    Optional.empty(),
                    "does not fit: " + e.getMessage());
        }
        Build candidate = build.withHotEnd(hotEnd);
        if (!fan.fan().equals(own.fan())) {
            // the sheet's trip speed belongs to the sheet's fan
            candidate = candidate.withoutTrip();
        }
        Assessment assessment = Assessment.of(candidate);
        Race race = new Race(hotEnd);
        double below = Math.min(race.belowSoftening(Regime.PRINTING), race.belowSoftening(Regime.HOT_IDLE));
        double air =
                race.standing(Regime.PRINTING).airFlow().orElse(0) * fan.fan().throughShare();
        Deadline deadline = assessment.deadline(assessment.recommended()).orElse(Deadline.never());
        Optional<Margin> margin = assessment.outcome() instanceof Outcome.SoftWhileHealthy
                ? Optional.empty()
                : Assessment.stopSeconds(candidate, assessment.trip(), assessment.recommended()).stream()
                        .mapToObj(s -> Margin.of(deadline, s))
                        .findFirst();
        return new Row(
                heatBreak.name(),
                fan.name(),
                plastic.name(),
                nozzle,
                air,
                below,
                Optional.of(assessment),
                deadline,
                margin,
                limit(assessment, margin));
    }

    private static String limit(Assessment assessment, Optional<Margin> margin) {
        return switch (assessment.outcome()) {
            case Outcome.SoftWhileHealthy(var from) -> "soft with a healthy fan, " + from.word();
            case Outcome.NoTripSpeed n -> "no trip speed tells healthy from unsafe";
            case Outcome.TripsAtOnce t -> "the trip speed is above the healthy fan's";
            case Outcome.Unprotected u -> "nothing notices a stopped fan";
            case Outcome.Raced r -> margin.map(Margin::words).orElse("");
        };
    }

    /** A column of the table; left out where every row says the same. */
    private record Shown(TextTable.Column column, Function<Row, String> cell, boolean always) {}

    private void print(Build build, List<Row> rows) {
        List<Shown> shown = List.of(
                new Shown(TextTable.Column.words("neck"), Row::neck, true),
                new Shown(TextTable.Column.words("fan"), Row::fan, false),
                new Shown(
                        TextTable.Column.words("plastic, nozzle"),
                        r -> r.plastic() + " %.0f degC".formatted(celsius(r.nozzle())),
                        false),
                new Shown(
                        TextTable.Column.numbers("fins, l/s"),
                        r -> r.airThroughFins() > 0 ? "%.2f".formatted(1e3 * r.airThroughFins()) : "",
                        true),
                new Shown(
                        TextTable.Column.numbers("below, K"),
                        r -> r.assessment().isPresent() ? "%.0f".formatted(r.belowSoftening()) : "",
                        true),
                new Shown(
                        TextTable.Column.numbers("until, s"),
                        r -> r.deadline() instanceof Deadline.Until(double s)
                                ? Sentences.until(s)
                                : r.deadline().word(),
                        true),
                new Shown(TextTable.Column.numbers("air, degC"), ChooseCommand::air, true),
                new Shown(TextTable.Column.words("response"), ChooseCommand::response, false),
                new Shown(TextTable.Column.words("limit"), Row::limit, true));
        List<Shown> kept = new ArrayList<>();
        StringBuilder same = new StringBuilder();
        for (Shown each : shown) {
            List<String> distinct = rows.stream().map(each.cell()).distinct().toList();
            if (each.always() || distinct.size() > 1) {
                kept.add(each);
            } else {
                same.append(same.isEmpty() ? "" : ", ").append(distinct.getFirst());
            }
        }
        terminal.folded(
                "%s, worst first; air %.0f degC%s. Below: kelvin below softening with a healthy fan. Until: deadline of the best response, from the worse of printing and hot-idle. Air: the highest safe."
                        .formatted(
                                build.printer(),
                                celsius(build.hotEnd().surroundings().air()),
                                same.isEmpty() ? "" : "; all: " + same),
                "");
        TextTable table = new TextTable(
                kept.stream().map(Shown::column).toList(),
                rows.stream()
                        .map(r -> kept.stream().map(c -> c.cell().apply(r)).toList())
                        .toList());
        terminal.line(table.text(new TextOptions(terminal.width(), !terminal.unicode(), false))
                .stripTrailing());
    }

    private static String air(Row row) {
        return row.assessment()
                .filter(a -> a.highestSafeAir().isPresent())
                .map(a -> "%.0f".formatted(Math.floor(celsius(a.highestSafeAir().getAsDouble()))))
                .orElse("none");
    }

    private static String response(Row row) {
        return row.assessment().map(a -> Response.words(a.recommended())).orElse("");
    }

    private static ObjectNode json(Build build, List<Row> rows) {
        ObjectNode node = Json.object();
        node.put("printer", build.printer());
        ArrayNode array = node.putArray("candidates");
        for (Row row : rows) {
            ObjectNode each = array.addObject();
            each.put("neck", row.neck());
            each.put("fan", row.fan());
            each.put("plastic", row.plastic());
            put(each, "nozzle_C", celsius(row.nozzle()));
            if (row.assessment().isPresent()) {
                put(each, "air_through_fins_m3_s", row.airThroughFins());
                put(each, "below_softening_K", row.belowSoftening());
                RaceJson.actions(
                        each.putArray("actions"), row.assessment().get().recommended());
                RaceJson.deadline(each, row.deadline());
                row.assessment().get().highestSafeAir().ifPresent(k -> put(each, "highest_safe_air_C", celsius(k)));
            }
            row.margin().ifPresent(m -> RaceJson.margin(each, m));
            each.put("limit", row.limit());
        }
        return node;
    }
}
