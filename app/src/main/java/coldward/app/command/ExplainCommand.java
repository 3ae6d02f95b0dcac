package coldward.app.command;

import static coldward.app.terminal.Json.put;

import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.model.build.Build;
import coldward.model.build.Reading.Sampled;
import coldward.model.cause.CauseRanker;
import coldward.model.cause.CauseRanking;
import coldward.model.cause.Expected;
import coldward.model.cause.Look;
import coldward.model.cause.Seen;
import coldward.model.reading.Sampling;
import coldward.model.reading.ShowingInterval;
import coldward.quantity.Checks;
import coldward.quantity.InputError;
import coldward.sheet.Sheets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
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

/** {@code coldward reading explain}. */
@Command(
        name = "explain",
        mixinStandardHelpOptions = true,
        description = {
            "What a shown speed means.",
            "With a sheet: ranks the causes of what is seen and names the next look to take; ends with 1 unless the"
                    + " reading is most probably right. Without: every interval between two looks at the pin that would"
                    + " show one speed as another, down to 0.1 ms; ends with 1 if none does."
        },
        footer = {
            "",
            "Example:",
            "  coldward reading explain heron.yaml --shown 3990 --unplugged 0 --duty-sweep 80:3210,60:2400",
            "  coldward reading explain --true 9000 --shown 3000 --pulses 2"
        })
public final class ExplainCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(index = "0", arity = "0..1", paramLabel = "SHEET", description = "the build sheet, to rank causes")
    private @Nullable Path sheet;

    @Option(names = "--true", paramLabel = "RPM", description = "without a sheet: the true speed")
    private @Nullable String trueSpeed;

    @Option(names = "--shown", paramLabel = "RPM", description = "the speed that is shown, motors running")
    private @Nullable String shown;

    @Option(names = "--pulses", paramLabel = "P", description = "without a sheet: pulses per turn, 1 to 12")
    private @Nullable Integer pulses;

    @Option(
            names = "--duty",
            paramLabel = "SHARE",
            defaultValue = "50 %",
            description = "without a sheet: share of a pulse that is high (default ${DEFAULT-VALUE})")
    private String duty = "";

    @Option(
            names = "--tolerance",
            paramLabel = "SHARE",
            defaultValue = "2 %",
            description = "without a sheet: within which two speeds count as the same (default ${DEFAULT-VALUE})")
    private String tolerance = "";

    @Option(
            names = "--duty-sweep",
            paramLabel = "PERCENT:RPM,...",
            split = ",",
            description = "speeds shown while the fan is commanded to so much")
    private List<String> dutySweep = List.of();

    @Option(
            names = "--interval-sweep",
            paramLabel = "TIME:RPM,...",
            split = ",",
            description = "speeds shown while the pin is looked at so often, for example 1ms:3990,0.25ms:8000")
    private List<String> intervalSweep = List.of();

    @Option(names = "--unplugged", paramLabel = "RPM", description = "shown with the fan unplugged, motors running")
    private @Nullable String unplugged;

    @Option(names = "--motors-still", paramLabel = "RPM", description = "shown while all motors stand")
    private @Nullable String motorsStill;

    @Option(names = "--full-power", paramLabel = "RPM", description = "shown with the fan's supply held on")
    private @Nullable String fullPower;

    @Option(
            names = "--other-counter",
            paramLabel = "RPM",
            description = "by a frequency meter at the fan's plug, motors still, pulses per turn as on the sheet")
    private @Nullable String otherCounter;

    @Option(names = "--strobe", paramLabel = "RPM", description = "the true speed by strobe or by the blades' tone")
    private @Nullable String strobe;

    @Option(names = "--supply", paramLabel = "V", description = "voltage at the fan's plug while it should turn")
    private @Nullable String supply;

    @Option(names = "--air", paramLabel = "WORD", description = "air behind the fins: none, weak, usual")
    private @Nullable String air;

    @Option(names = "--hand", paramLabel = "WORD", description = "blades by hand, unpowered, cold: free, stiff, held")
    private @Nullable String hand;

    @Option(
            names = "--third-wire",
            paramLabel = "WORD",
            description = "third wire at the fan's plug: pulses, changes-when-held, changes-when-slowed, nothing")
    private @Nullable String thirdWire;

    @Option(names = "--ask", description = "ask for what is seen, then for each next look; an empty answer skips")
    private boolean ask;

    @Option(
            names = "--json",
            description = "print the result as JSON (schema 'reading-causes' with a sheet, 'reading-explain' without)")
    private boolean json;

    public ExplainCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        CommandLine line = Arguments.line(spec, this);
        return sheet == null ? intervals(line) : causes(line, sheet);
    }

    private int causes(CommandLine line, Path from) {
        if (trueSpeed != null || pulses != null) {
            throw new ParameterException(
                    line, "--true and --pulses ask without a sheet; a sheet says what is expected");
        }
        if (ask && json) {
            throw new ParameterException(line, "--ask talks and --json does not; choose one");
        }
        Build build = Sheets.read(from);
        Optional<Expected> expected = Expected.of(build);
        if (expected.isEmpty()) {
            throw new InputError("reading", build.printer() + " reads no speed (reading: none): nothing to explain");
        }
        List<Seen> seen = seen(line, expected.get());
        if (seen.isEmpty() && !ask) {
            throw new ParameterException(line, "missing: --shown, the speed that is shown (or --ask)");
        }
        CauseRanker ranker = CauseRanker.of(expected.get());
        CauseRanking ranking = ask ? new CauseInterview(terminal, ranker).run(seen) : ranker.rank(seen);
        if (json) {
            terminal.line(Json.text(CausesOutput.json(build.printer(), seen, ranking)));
        } else if (!ask) {
            CausesOutput.print(ranking, terminal);
        }
        return (CausesOutput.right(ranking) ? ExitCode.DONE : ExitCode.NOT_SAFE).number();
    }

    private List<Seen> seen(CommandLine line, Expected expected) {
        List<Seen> seen = new ArrayList<>();
        rpm(line, seen, Look.SHOWN, "--shown", shown);
        for (String pair : dutySweep) {
            double percent = Arguments.share(line, "--duty-sweep", first(line, "--duty-sweep", pair) + " %");
            seen.add(Seen.atDuty(percent, Arguments.rpm(line, "--duty-sweep", second(pair))));
        }
        if (!intervalSweep.isEmpty() && !(expected.reading().counter() instanceof Sampled)) {
            throw new ParameterException(
                    line, "--interval-sweep is for a sampled counter; the sheet's counter does not look at the pin");
        }
        for (String pair : intervalSweep) {
            double every = Arguments.time(line, "--interval-sweep", first(line, "--interval-sweep", pair));
            seen.add(Seen.atInterval(every, Arguments.rpm(line, "--interval-sweep", second(pair))));
        }
        rpm(line, seen, Look.UNPLUGGED, "--unplugged", unplugged);
        rpm(line, seen, Look.MOTORS_STILL, "--motors-still", motorsStill);
        rpm(line, seen, Look.FULL_POWER, "--full-power", fullPower);
        rpm(line, seen, Look.OTHER_COUNTER, "--other-counter", otherCounter);
        rpm(line, seen, Look.STROBE, "--strobe", strobe);
        if (supply != null) {
            seen.add(Seen.of(Look.SUPPLY, Arguments.volts(line, "--supply", supply)));
        }
        choice(line, seen, Look.AIR, air);
        choice(line, seen, Look.HAND, hand);
        choice(line, seen, Look.THIRD_WIRE, thirdWire);
        return seen;
    }

    private static void rpm(CommandLine line, List<Seen> seen, Look look, String option, @Nullable String text) {
        if (text != null) {
            seen.add(Seen.of(look, Arguments.rpm(line, option, text)));
        }
    }

    private static void choice(CommandLine line, List<Seen> seen, Look look, @Nullable String word) {
        if (word != null) {
            if (!look.choices().contains(word)) {
                throw new ParameterException(
                        line,
                        "--%s is %s but must be one of %s"
                                .formatted(look.key(), word, String.join(", ", look.choices())));
            }
            seen.add(Seen.of(look, word));
        }
    }

    private static String first(CommandLine line, String option, String pair) {
        int colon = pair.indexOf(':');
        if (colon < 1) {
            throw new ParameterException(line, option + ": '" + pair + "' is no pair; write setting:rpm");
        }
        return pair.substring(0, colon).strip();
    }

    private static String second(String pair) {
        return pair.substring(pair.indexOf(':') + 1).strip();
    }

    private int intervals(CommandLine line) {
        if (trueSpeed == null || shown == null || pulses == null) {
            throw new ParameterException(
                    line, "missing: SHEET and --shown, or without a sheet --true, --shown and --pulses");
        }
        double trueRpm = Arguments.rpm(line, "--true", trueSpeed);
        double shownRpm = Arguments.rpm(line, "--shown", shown);
        List<ShowingInterval> found = Sampling.intervalsThatShow(
                trueRpm,
                shownRpm,
                pulses,
                Arguments.share(line, "--duty", duty),
                Arguments.share(line, "--tolerance", tolerance));
        if (json) {
            ObjectNode node = Json.object();
            put(node, "true_rpm", trueRpm);
            put(node, "shown_rpm", shownRpm);
            node.put("pulses_per_turn", pulses);
            ArrayNode rows = node.putArray("intervals");
            for (ShowingInterval each : found) {
                ObjectNode row = rows.addObject();
                row.put("kind", each instanceof ShowingInterval.AnyUpTo ? "any-up-to" : "exactly");
                put(row, "interval_s", each.seconds());
                row.put("why", each.why().words());
            }
            terminal.line(Json.text(node));
        } else {
            print(trueRpm, shownRpm, pulses, found);
        }
        return (found.isEmpty() ? ExitCode.NOT_SAFE : ExitCode.DONE).number();
    }

    private void print(double trueRpm, double shownRpm, int perTurn, List<ShowingInterval> found) {
        if (found.isEmpty()) {
            terminal.folded(
                    ("No sampling interval shows %.0f rpm as %.0f rpm with %d pulses per turn: sampling never shows"
                                    + " more than the truth. Look at the pulses per turn or at coupling instead.")
                            .formatted(trueRpm, shownRpm, perTurn),
                    "");
            return;
        }
        terminal.folded(
                "A fan at %.0f rpm with %d pulses per turn is shown at %.0f rpm when its pin is looked at every"
                        .formatted(trueRpm, perTurn, shownRpm),
                "");
        for (ShowingInterval each : found) {
            terminal.line("  %-16s %s"
                    .formatted(
                            (each instanceof ShowingInterval.AnyUpTo ? "up to " : "")
                                    + Checks.number(Math.rint(each.seconds() * 1e7) / 1e4) + " ms",
                            each.why().words()));
        }
    }
}
