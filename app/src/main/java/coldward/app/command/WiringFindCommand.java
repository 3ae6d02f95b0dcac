package coldward.app.command;

import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.model.wiring.finder.FinderAnswer;
import coldward.model.wiring.finder.Measurement;
import coldward.model.wiring.finder.WireFinder;
import coldward.quantity.CannotRun;
import coldward.quantity.Dimension;
import coldward.quantity.InputError;
import coldward.quantity.Units;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code coldward wiring find}. */
@Command(
        name = "find",
        mixinStandardHelpOptions = true,
        description = {
            "Which of a three-wire fan's wires is supply, return and third, and what the third tells.",
            "Weighs readings of a multimeter against every order of the wires and every kind of third wire, and says what to"
                    + " measure next. Ends with 1 while that is not settled. Colours are never believed.",
            "Unplug the fan from the board first; measure it alone, on a bench supply. Disconnect the supply before"
                    + " touching wiring."
        },
        footer = {
            "",
            "Example:",
            "  coldward wiring find --ask",
            "  coldward wiring find --wires left,middle,right --supply 24V --ohms middle,left=over \\",
            "      --fed left,middle,left=4.6V --fed right,middle,right=24V --third left,middle,right,held=23.9V"
        })
public final class WiringFindCommand implements Callable<Integer> {

    private static final int MOST_QUESTIONS = 20;

    private final Terminal terminal;

    @Spec
    private @Nullable CommandSpec spec;

    @Option(
            names = "--wires",
            paramLabel = "A,B,C",
            description = "what you call the three wires, for example by their place in the plug (default 1,2,3)")
    private @Nullable String wires;

    @Option(
            names = "--supply",
            paramLabel = "V",
            description = "the fan's rated voltage, which it is fed (default 12 V)")
    private @Nullable String supply;

    @Option(
            names = "--resistor",
            paramLabel = "OHM",
            defaultValue = "1 kohm",
            description = "in the plus while --fed is measured, at least 470 ohm (default ${DEFAULT-VALUE})")
    private String resistor = "";

    @Option(
            names = "--pull-up",
            paramLabel = "OHM",
            defaultValue = "10 kohm",
            description = "from plus to the third wire while --third is measured (default ${DEFAULT-VALUE})")
    private String pullUp = "";

    @Option(
            names = "--ohms",
            paramLabel = "RED,BLACK=OHM",
            description = "nothing connected: ohms between two wires, or 'over' for over range; repeatable")
    private List<String> ohms = List.of();

    @Option(
            names = "--fed",
            paramLabel = "PLUS,MINUS,AT=V",
            description = "supply through the resistor to one wire, minus to another: volts from AT to the minus;"
                    + " repeatable")
    private List<String> fed = List.of();

    @Option(
            names = "--third",
            paramLabel = "PLUS,MINUS,THIRD,ROTOR=V",
            description = "only once plus and minus are settled: supply to the fan, pull-up to the third wire, rotor"
                    + " free, slow (half the voltage) or held (with a soft stick): volts from THIRD to the minus;"
                    + " repeatable")
    private List<String> third = List.of();

    @Option(names = "--ask", description = "ask for one reading after another; an empty answer skips it")
    private boolean ask;

    @Option(names = "--json", description = "print the result as JSON (docs/outputs.md, schema 'wiring-find')")
    private boolean json;

    public WiringFindCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        CommandLine line = Arguments.line(spec, this);
        if (ask && json) {
            throw new ParameterException(line, "--ask talks and --json does not; choose one");
        }
        if (ask) {
            try (Prompt.Answers answers = Prompt.answers(terminal)) {
                return interview(line, answers);
            }
        }
        WireReadings typed = readings(line, wires, supply);
        List<Measurement> seen = given(line, typed);
        if (seen.isEmpty()) {
            throw new ParameterException(line, "missing: a reading (--ohms, --fed or --third), or --ask");
        }
        FinderAnswer answer = WireFinder.find(typed.wires(), seen, typed.supply(), Set.of());
        if (json) {
            terminal.line(Json.text(WiringFindOutput.json(answer, seen, typed.supply())));
        } else {
            WiringFindOutput.print(answer, seen, typed.supply(), terminal);
        }
        return code(answer);
    }

    private static int code(FinderAnswer answer) {
        return (answer.tells().isPresent() ? ExitCode.DONE : ExitCode.NOT_SAFE).number();
    }

    private WireReadings readings(CommandLine line, @Nullable String names, @Nullable String volts) {
        return new WireReadings(
                usage(line, () -> WireReadings.names(names == null ? "1,2,3" : names)),
                volts == null ? WireFinder.USUAL_SUPPLY_V : Arguments.volts(line, "--supply", volts),
                usage(line, () -> Units.parse(Dimension.RESISTANCE, "--resistor", resistor)),
                usage(line, () -> Units.parse(Dimension.RESISTANCE, "--pull-up", pullUp)));
    }

    /** What is typed on the line and cannot be read is wrong use; what can be read and cannot be is bad input. */
    private static <T> T usage(CommandLine line, Supplier<T> parsed) {
        try {
            return parsed.get();
        } catch (InputError e) {
            throw new ParameterException(line, e.getMessage(), e);
        }
    }

    private List<Measurement> given(CommandLine line, WireReadings typed) {
        List<Measurement> seen = new ArrayList<>();
        ohms.forEach(t -> seen.add(usage(line, () -> typed.ohms(t))));
        fed.forEach(t -> seen.add(usage(line, () -> typed.fed(t))));
        third.forEach(t -> seen.add(usage(line, () -> typed.third(t))));
        return seen;
    }

    private int interview(CommandLine line, Prompt.Answers answers) {
        WiringFindOutput.cautions(terminal);
        terminal.folded(
                "Unplug the fan from the board and lay it on the bench. Needed: a multimeter, a supply with the fan's rated"
                        + " voltage, a resistor of 1 kohm and one of 10 kohm. An empty answer skips a reading.",
                "");
        terminal.line();
        String names = wires != null
                ? wires
                : answers.ask("What do you call its three wires (with commas; empty for 1,2,3)")
                        .orElse("1,2,3");
        String volts = supply != null
                ? supply
                : answers.ask("The fan's rated voltage (V; empty for 12 V)").orElse("12 V");
        WireReadings typed = readings(line, names, volts);
        List<Measurement> seen = given(line, typed);
        Set<String> skipped = new HashSet<>();
        FinderAnswer answer = WireFinder.find(typed.wires(), seen, typed.supply(), skipped);
        for (int i = 0; i < MOST_QUESTIONS && answer.next().isPresent(); i++) {
            boolean before = answer.wires().isPresent();
            Measurement test = answer.next().get().test();
            terminal.line();
            Optional<Measurement> one = shown(answers, test);
            one.ifPresent(seen::add);
            if (one.isEmpty()) {
                skipped.add(test.words());
            }
            if (answers.ended()) {
                break;
            }
            answer = WireFinder.find(typed.wires(), seen, typed.supply(), skipped);
            if (!before && answer.wires().isPresent()) {
                terminal.line();
                terminal.folded("So far: " + WiringFindOutput.wires(answer) + ".", "");
            }
        }
        if (seen.isEmpty()) {
            throw new CannotRun("no answer: at least one reading is needed");
        }
        terminal.line();
        WiringFindOutput.body(answer, seen, typed.supply(), terminal);
        return code(answer);
    }

    private Optional<Measurement> shown(Prompt.Answers answers, Measurement test) {
        String unit = test instanceof Measurement.Ohms ? "ohm, kohm, Mohm or over" : "V";
        terminal.folded(WiringFindOutput.sentence(test.words()) + ".", "");
        while (true) {
            Optional<String> text = answers.ask("The meter shows (" + unit + ")");
            if (text.isEmpty()) {
                return Optional.empty();
            }
            try {
                return Optional.of(WireReadings.read(test, text.get()));
            } catch (InputError e) {
                terminal.folded(e.getMessage() == null ? "not understood" : e.getMessage(), "");
            }
        }
    }
}
