package coldward.app.command;

import static coldward.app.terminal.Json.put;

import coldward.app.history.BaselineSpell;
import coldward.app.history.BaselineWords;
import coldward.app.history.ReportSource;
import coldward.app.history.Told;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.app.terminal.WholeFile;
import coldward.figures.BaselineFigure;
import coldward.figures.BaselinePicture;
import coldward.figures.Format;
import coldward.figures.TextOptions;
import coldward.figures.Theme;
import coldward.model.baseline.Baseline;
import coldward.model.baseline.BaselineWarning;
import coldward.model.baseline.SlowLoss;
import coldward.quantity.DataError;
import coldward.quantity.InputError;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** {@code coldward baseline}. */
@Command(
        name = "baseline",
        mixinStandardHelpOptions = true,
        description = {
            "What a healthy fan's reports look like: mean, scatter, correlation, outliers, drift.",
            "From a CSV file (columns time_s or time, and speed_rpm), or from what the watch has kept of a printer."
                    + " Ends with 1 if the recording is too short, still warming up, or otherwise not to be relied on."
        },
        footer = {
            "",
            "Examples:",
            "  coldward baseline heron.csv --svg heron-baseline.svg",
            "  coldward baseline heron --shop shop.yaml"
        })
public final class BaselineCommand implements Callable<Integer> {

    /** s; the year of printing that spurious trips are counted in, too. */
    private static final double YEAR_OF_PRINTING_S = 4000 * 3600.0;

    private final Terminal terminal;

    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(index = "0", paramLabel = "CSV|PRINTER", description = "the recording; with --shop the printer's name")
    private String source = "";

    @Option(names = "--shop", paramLabel = "SHOP", description = "the shop file, or its state folder")
    private @Nullable Path shop;

    @Option(
            names = "--days",
            paramLabel = "N",
            defaultValue = "7",
            description = "with --shop: only the newest N days (default ${DEFAULT-VALUE})")
    private double days;

    @Option(
            names = "--runs-above",
            paramLabel = "TEMPERATURE",
            defaultValue = "50 degC",
            description =
                    "nozzle above which the fan is asked to turn, where the recording has no duty (default ${DEFAULT-VALUE})")
    private String runsAbove = "50 degC";

    @Option(names = "--json", description = "print the result as JSON (docs/outputs.md, schema 'baseline')")
    private boolean json;

    @Option(names = "--svg", paramLabel = "FILE", description = "write the figure as SVG")
    private @Nullable Path svg;

    @Option(
            names = "--theme",
            paramLabel = "THEME",
            defaultValue = "AUTO",
            description = "ground of the SVG: ${COMPLETION-CANDIDATES} (default ${DEFAULT-VALUE})")
    private Theme theme = Theme.AUTO;

    @Option(names = "--narrow", description = "lay the SVG out for a narrow screen")
    private boolean narrow;

    public BaselineCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        double hot = Arguments.temperature(Arguments.line(spec, this), "--runs-above", runsAbove);
        ReportSource from = Recordings.of(Arguments.line(spec, this), source, shop, days);
        BaselineSpell spell = new BaselineSpell(hot);
        Told reports = from.read(spell);
        BaselineSpell.Found found;
        Baseline baseline;
        try {
            found = spell.found();
            baseline = Baseline.of(found.recording());
        } catch (InputError e) {
            throw new DataError(source, 0, "", String.valueOf(e.getMessage()));
        }
        BaselinePicture picture =
                BaselinePicture.of(source, BaselineWords.verdict(baseline), found.recording(), baseline);
        if (svg != null) {
            WholeFile.write(svg, BaselineFigure.svg(picture, narrow ? Format.NARROW : Format.WIDE, theme));
        }
        if (json) {
            terminal.line(Json.text(json(found, baseline, picture, reports)));
        } else {
            print(found, baseline, picture, reports);
        }
        return (baseline.warnings().isEmpty() ? ExitCode.DONE : ExitCode.NOT_SAFE).number();
    }

    private void print(BaselineSpell.Found found, Baseline baseline, BaselinePicture picture, Told reports) {
        int used = found.recording().reports().size();
        terminal.folded(BaselineWords.verdict(baseline), "");
        indented(
                "  used               %d of %d reports: the longest spell at one duty without a gap, %s%s"
                        .formatted(
                                used,
                                found.of(),
                                BaselineWords.length(found.recording().length()),
                                reports.wallTime() ? ", from " + Instant.ofEpochMilli(found.from() / 1_000_000) : ""),
                "                     ");
        terminal.line("  mean               %.0f rpm".formatted(baseline.mean()));
        terminal.line("  deviation          %.1f rpm (%s)"
                .formatted(baseline.deviation(), BaselineWords.percent(baseline.deviation() / baseline.mean())));
        terminal.line("  correlation        %.3f between neighbouring reports, standard error %.3f"
                .formatted(baseline.correlation(), baseline.correlationError()));
        terminal.line("  outliers           %d of %d (%s); 95 %% sure of at most %s"
                .formatted(
                        picture.outliers().size(),
                        used,
                        BaselineWords.percent(baseline.outlierRate()),
                        BaselineWords.percent(baseline.outlierRateHigh())));
        terminal.line("  drift              %+.1f rpm/h, 99 %% interval %+.1f to %+.1f"
                .formatted(
                        baseline.drift().slope() + 0.0,
                        baseline.drift().low() + 0.0,
                        baseline.drift().high() + 0.0));
        slowLoss(found, baseline)
                .ifPresent(loss -> indented(
                        "  slow loss          %.0f rpm (1 %%) shows within %s on average, wrongly once in %.0f h (running sum over means of %d reports)"
                                .formatted(
                                        loss.loss(),
                                        BaselineWords.length(loss.seconds()),
                                        loss.wronglyEvery() / 3600,
                                        loss.reportsPerMean()),
                        "                     "));
        terminal.line("  report interval    %.3g s, smallest step %.3g rpm"
                .formatted(found.recording().interval(), found.recording().resolution()));
        for (BaselineWarning warning : baseline.warnings()) {
            indented("  CAUTION  " + BaselineWords.sentence(warning), "           ");
        }
        if (!reports.unused().isEmpty()) {
            indented("  columns passed over: " + String.join(", ", reports.unused()), "    ");
        }
        terminal.line();
        terminal.line(
                BaselineFigure.text(picture, new TextOptions(terminal.width(), !terminal.unicode(), terminal.colour()))
                        .stripTrailing());
    }

    /** How soon a fading fan would show; empty where the recording says too little. */
    private static Optional<SlowLoss> slowLoss(BaselineSpell.Found found, Baseline baseline) {
        return SlowLoss.of(baseline, found.recording().interval(), YEAR_OF_PRINTING_S);
    }

    /** Folded, with the first line's own columns kept. */
    private void indented(String text, String rest) {
        String held = text.replace("  ", "\u00a0\u00a0");
        terminal.fold(held, rest).forEach(line -> terminal.line(line.replace('\u00a0', ' ')));
    }

    private ObjectNode json(BaselineSpell.Found found, Baseline baseline, BaselinePicture picture, Told reports) {
        ObjectNode node = Json.object();
        node.put("source", source);
        node.put("reports", found.of());
        node.put("used", found.recording().reports().size());
        put(node, "length_s", found.recording().length());
        if (reports.wallTime()) {
            node.put("from_ms", Math.floorDiv(found.from(), 1_000_000L));
        }
        put(node, "interval_s", found.recording().interval());
        put(node, "resolution_rpm", found.recording().resolution());
        put(node, "mean_rpm", baseline.mean());
        put(node, "deviation_rpm", baseline.deviation());
        put(node, "correlation", baseline.correlation());
        put(node, "correlation_error", baseline.correlationError());
        node.put("outliers", picture.outliers().size());
        put(node, "outlier_share", baseline.outlierRate());
        put(node, "outlier_share_high", baseline.outlierRateHigh());
        ObjectNode drift = node.putObject("drift");
        put(drift, "slope_rpm_h", baseline.drift().slope());
        put(drift, "low_rpm_h", baseline.drift().low());
        put(drift, "high_rpm_h", baseline.drift().high());
        put(drift, "change_rpm", baseline.drift().change());
        put(drift, "limit_rpm", baseline.drift().limit());
        drift.put("statement", baseline.drift().statement().name().toLowerCase(java.util.Locale.ROOT));
        slowLoss(found, baseline).ifPresent(loss -> {
            ObjectNode one = node.putObject("slow_loss");
            put(one, "loss_rpm", loss.loss());
            put(one, "shows_after_s", loss.seconds());
            put(one, "wrongly_every_s", loss.wronglyEvery());
            one.put("reports_per_mean", loss.reportsPerMean());
        });
        node.put("reliable", baseline.warnings().isEmpty());
        ArrayNode warnings = node.putArray("warnings");
        for (BaselineWarning warning : baseline.warnings()) {
            ObjectNode one = warnings.addObject();
            one.put("kind", BaselineWords.word(warning));
            one.put("sentence", BaselineWords.sentence(warning));
        }
        ArrayNode unused = node.putArray("unused_columns");
        reports.unused().forEach(unused::add);
        return node;
    }
}
