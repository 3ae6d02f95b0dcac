package coldward.app.command;

import static coldward.app.terminal.Json.put;

import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.model.build.Build;
import coldward.model.build.HotEnd;
import coldward.model.heat.SinkFit;
import coldward.sheet.SheetPatch;
import coldward.sheet.Sheets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tools.jackson.databind.node.ObjectNode;

/** {@code coldward measure}: its subcommands do the work. */
@Command(
        name = "measure",
        mixinStandardHelpOptions = true,
        synopsisSubcommandLabel = "sink",
        description = "Replace computed facts by measured ones.",
        footer = {"", "Example:", "  coldward measure sink heron.yaml"})
public final class MeasureCommand implements Callable<Integer> {

    @Spec
    private @Nullable CommandSpec spec;

    @Override
    public Integer call() {
        throw new ParameterException(Arguments.line(spec, this), "missing: sink");
    }

    /** {@code coldward measure sink}. */
    @Command(
            name = "sink",
            mixinStandardHelpOptions = true,
            description = {
                "Fit the sink's conductance to air, fan on and still, to readings of a thermometer on the sink.",
                "How: take the filament out; heat to the sheet's nozzle temperature with the fan on until the sink's"
                        + " temperature no longer changes and note it (--hot). Then switch the heater off, unplug the fan,"
                        + " and note the sink's temperature every minute for at least 3 minutes (--later). What is fitted"
                        + " is written to the sheet. Without readings on the command line they are asked for.",
                "CAUTION: the hot end burns. Unplug only the fan's own low-voltage connector, with dry hands and tools;"
                        + " stay beside the machine."
            },
            footer = {
                "",
                "Example:",
                "  coldward measure sink heron.yaml --hot 34.9 --later 47.2,52.0,52.1,50.0,47.1 --air 25"
            })
    public static final class SinkOnly implements Callable<Integer> {

        private static final double FEWEST = 3;

        private final Terminal terminal;

        @Spec
        private @Nullable CommandSpec spec;

        @Parameters(index = "0", paramLabel = "SHEET", description = "the build sheet; sink.measured is written to it")
        private Path file = Path.of("");

        @Option(
                names = "--hot",
                paramLabel = "TEMPERATURE",
                description = "sink, hot and settled, fan on (degC unless a unit is given)")
        private @Nullable String hot;

        @Option(
                names = "--later",
                paramLabel = "TEMPERATURES",
                split = ",",
                description = "sink at each interval after heater off and fan unplugged")
        private @Nullable List<String> later;

        @Option(
                names = "--every",
                paramLabel = "SECONDS",
                defaultValue = "60",
                description = "s between two later readings (default ${DEFAULT-VALUE})")
        private double every;

        @Option(
                names = "--air",
                paramLabel = "TEMPERATURE",
                description = "air around the machine now (default: the sheet's)")
        private @Nullable String air;

        @Option(names = "--keep-sheet", description = "print the result but leave the sheet as it is")
        private boolean keepSheet;

        @Option(names = "--json", description = "print the result as JSON (schema 'measure-sink')")
        private boolean json;

        public SinkOnly(Terminal terminal) {
            this.terminal = terminal;
        }

        @Override
        public Integer call() {
            CommandLine line = Arguments.line(spec, this);
            Build build = Sheets.read(file);
            if ((hot == null || later == null) && !terminal.interactive()) {
                throw new ParameterException(line, "missing: --hot and --later, the readings");
            }
            if (hot == null || later == null) {
                terminal.folded(
                        "CAUTION: the hot end burns; stay beside the machine. Take the filament out, heat to %.0f degC with the fan on, and wait until the sink's temperature no longer changes. Unplug only the fan's own low-voltage connector."
                                .formatted(build.hotEnd().nozzle() - 273.15),
                        "");
            }
            double hotKelvin = Arguments.temperature(
                    line, "--hot", hot != null ? hot : Prompt.ask(terminal, "sink, hot and settled, fan on, degC"));
            List<Double> kelvin = new ArrayList<>();
            if (later != null) {
                for (String each : later) {
                    kelvin.add(Arguments.temperature(line, "--later", each.strip()));
                }
            } else {
                terminal.folded(
                        "Now heater off and fan unplugged, at the same moment. Type the sink's temperature every %.0f s; end with 'done'."
                                .formatted(every),
                        "");
                while (true) {
                    String answer = Prompt.ask(terminal, "after %.0f s, degC".formatted(every * (kelvin.size() + 1)));
                    if (answer.equals("done") && kelvin.size() >= FEWEST) {
                        break;
                    }
                    kelvin.add(Arguments.temperature(line, "--later", answer));
                }
            }
            HotEnd hotEnd =
                    air == null ? build.hotEnd() : build.hotEnd().withAir(Arguments.temperature(line, "--air", air));
            double[] seconds = new double[kelvin.size()];
            double[] values = new double[kelvin.size()];
            for (int i = 0; i < seconds.length; i++) {
                seconds[i] = every * (i + 1);
                values[i] = kelvin.get(i);
            }
            SinkFit.Fit fit = SinkFit.fit(hotEnd, new SinkFit.Readings(hotKelvin, seconds, values));
            if (!keepSheet) {
                SheetPatch.apply(
                        file,
                        Map.of("sink.measured", "{on: %.4g W/K, still: %.4g W/K}".formatted(fit.on(), fit.still())));
            }
            print(build, fit);
            return ExitCode.DONE.number();
        }

        private void print(Build build, SinkFit.Fit fit) {
            if (json) {
                ObjectNode node = Json.object();
                node.put("printer", build.printer());
                put(node, "on_W_K", fit.on());
                put(node, "on_low_W_K", fit.onLow());
                put(node, "on_high_W_K", fit.onHigh());
                put(node, "still_W_K", fit.still());
                put(node, "still_low_W_K", fit.stillLow());
                put(node, "still_high_W_K", fit.stillHigh());
                put(node, "residual_K", fit.residual());
                node.put("evaluations", fit.evaluations());
                node.put("written", !keepSheet);
                terminal.line(Json.text(node));
                return;
            }
            terminal.line("%s, sink to air".formatted(build.printer()));
            terminal.line("  fan on     %.3f W/K   95 %% between %.3f and %.3f"
                    .formatted(fit.on(), fit.onLow(), fit.onHigh()));
            terminal.line("  still air  %.4f W/K  95 %% between %.4f and %.4f"
                    .formatted(fit.still(), fit.stillLow(), fit.stillHigh()));
            terminal.line("  readings and model differ by %.1f K (root mean square)".formatted(fit.residual()));
            if (fit.residual() > 3 * SinkFit.THERMOMETER) {
                terminal.folded(
                        "note: that is much for a thermometer; check its contact, the nozzle temperature and the air, and measure again",
                        "  ");
            }
            terminal.line(keepSheet ? "The sheet is as it was." : "Written to " + file + " as sink.measured.");
        }
    }
}
