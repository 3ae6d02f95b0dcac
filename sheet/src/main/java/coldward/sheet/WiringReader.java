package coldward.sheet;

import coldward.model.build.Origin;
import coldward.model.wiring.Board;
import coldward.model.wiring.Connector;
import coldward.model.wiring.ContactId;
import coldward.model.wiring.ContactNames;
import coldward.model.wiring.DiodeClass;
import coldward.model.wiring.Input;
import coldward.model.wiring.OpenCollector;
import coldward.model.wiring.Part;
import coldward.model.wiring.Port;
import coldward.model.wiring.Rail;
import coldward.model.wiring.Wire;
import coldward.model.wiring.WiredFan;
import coldward.model.wiring.Wiring;
import coldward.quantity.InputError;
import coldward.quantity.OwnBug;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/** Makes the wiring's records of a sheet; what a record refuses is told at the key it came from. */
final class WiringReader {

    private final Facts facts;
    private boolean refused;

    WiringReader(Facts facts) {
        this.facts = facts;
    }

    /** The wiring, empty where the sheet has none or it was refused. */
    Optional<Wiring> wiring() {
        if (!facts.isGiven("wiring")) {
            return Optional.empty();
        }
        List<Board> boards = rows("wiring.boards", this::board);
        Optional<WiredFan> fan = one("wiring.fan", this::fan);
        List<Part> parts = new ArrayList<>();
        parts.addAll(rows("wiring.diodes", this::diode));
        parts.addAll(rows("wiring.pull_ups", this::pullUp));
        parts.addAll(rows("wiring.filters", this::filter));
        parts.addAll(rows("wiring.level_shifts", this::levelShift));
        parts.addAll(rows("wiring.converters", this::converter));
        List<Wire> wires = rows("wiring.wires", this::wire);
        List<Connector> connectors = rows("wiring.connectors", this::connector);
        List<ContactNames> names = rows("wiring.names", this::names);
        if (refused || fan.isEmpty()) {
            return Optional.empty();
        }
        double coldest = facts.quantity("wiring.coldest");
        double hottest = facts.quantity("wiring.hottest");
        Function<Wired, Wiring> with =
                w -> new Wiring(coldest, hottest, boards, fan.get(), parts, w.wires(), w.connectors(), w.names());
        // one by one first, so that a refusal is told where it stands
        Optional<Wiring> bare = one("wiring", p -> with.apply(new Wired(List.of(), List.of(), List.of())));
        if (bare.isEmpty()) {
            return bare;
        }
        eachAlone("wiring.wires", wires, w -> with.apply(new Wired(List.of(w), List.of(), List.of())));
        eachAlone("wiring.connectors", connectors, c -> with.apply(new Wired(List.of(), List.of(c), List.of())));
        eachAlone("wiring.names", names, n -> with.apply(new Wired(List.of(), List.of(), List.of(n))));
        return refused ? Optional.empty() : one("wiring", p -> with.apply(new Wired(wires, connectors, names)));
    }

    private record Wired(List<Wire> wires, List<Connector> connectors, List<ContactNames> names) {}

    private <T> void eachAlone(String path, List<T> rows, Function<T, Wiring> maker) {
        for (int i = 0; i < rows.size(); i++) {
            T row = rows.get(i);
            one(path + "[" + i + "]", p -> maker.apply(row));
        }
    }

    private <T> List<T> rows(String path, Function<String, T> maker) {
        List<T> made = new ArrayList<>();
        for (int i = 0; i < facts.rows(path); i++) {
            one(path + "[" + i + "]", maker).ifPresent(made::add);
        }
        return made;
    }

    private <T> Optional<T> one(String path, Function<String, T> maker) {
        try {
            return Optional.of(maker.apply(path));
        } catch (InputError e) {
            refused = true;
            String key = path + "." + e.name().substring(e.name().lastIndexOf(' ') + 1);
            facts.problem(facts.isGiven(key) ? key : path, String.valueOf(e.getMessage()));
            return Optional.empty();
        }
    }

    private Optional<String> text(String path) {
        return facts.isGiven(path) ? facts.find(path).map(Origin::text) : Optional.empty();
    }

    private List<String> marks(String path) {
        return text(path).stream()
                .flatMap(t -> Arrays.stream(t.substring(1, t.length() - 1).split(",\\s*")))
                .toList();
    }

    private ContactId contact(String path) {
        return ContactId.parse(facts.text(path));
    }

    private static <T> T word(T[] values, Function<T, String> words, String text) {
        return Arrays.stream(values)
                .filter(v -> words.apply(v).equals(text))
                .findFirst()
                .orElseThrow(() -> new OwnBug("unknown word " + text));
    }

    private Board board(String p) {
        return new Board(
                facts.text(p + ".name"),
                rows(p + ".rails", this::rail),
                rows(p + ".ports", this::port),
                rows(p + ".inputs", this::input),
                marks(p + ".ground"));
    }

    private Rail rail(String p) {
        return new Rail(
                facts.text(p + ".name"),
                facts.quantity(p + ".voltage"),
                facts.quantity(p + ".tolerance"),
                facts.quantity(p + ".current_limit"),
                facts.quantity(p + ".other_load"),
                marks(p + ".contacts"));
    }

    private Port port(String p) {
        return new Port(
                facts.text(p + ".name"),
                word(Port.Switching.values(), Port.Switching::word, facts.text(p + ".switched")),
                facts.text(p + ".rail"),
                facts.text(p + ".plus"),
                facts.text(p + ".minus"),
                facts.quantity(p + ".current_limit"),
                facts.quantity(p + ".on_resistance"),
                facts.ifThere(p + ".chopped_at"));
    }

    private Input input(String p) {
        return new Input(
                facts.text(p + ".name"),
                facts.text(p + ".contact"),
                facts.text(p + ".rail"),
                facts.quantity(p + ".low_below"),
                facts.quantity(p + ".high_above"),
                facts.ifThere(p + ".pull_up"),
                facts.quantity(p + ".pull_up_tolerance"),
                facts.quantity(p + ".tolerated_up_to"),
                facts.quantity(p + ".injection_up"),
                facts.quantity(p + ".injection_down"),
                facts.quantity(p + ".leakage"),
                facts.quantity(p + ".capacitance"),
                text(p + ".taken_by"));
    }

    private WiredFan fan(String p) {
        WiredFan.Leads leads = word(WiredFan.Leads.values(), WiredFan.Leads::word, facts.text(p + ".leads"));
        return new WiredFan(
                facts.quantity("fan.rated_voltage"),
                facts.quantity(p + ".lowest_voltage"),
                facts.quantity(p + ".highest_voltage"),
                facts.quantity(p + ".running_current"),
                facts.quantity(p + ".starting_current"),
                facts.quantity(p + ".start_voltage"),
                leads,
                word(WiredFan.ThirdWire.values(), WiredFan.ThirdWire::word, facts.text(p + ".third_wire")),
                leads == WiredFan.Leads.TWO && !facts.isGiven(p + ".stage")
                        ? Optional.empty()
                        : Optional.of(stage(p + ".stage")));
    }

    private OpenCollector stage(String p) {
        return new OpenCollector(
                facts.quantity(p + ".saturation"),
                facts.quantity(p + ".at"),
                facts.quantity(p + ".offset"),
                facts.quantity(p + ".current_limit"),
                facts.quantity(p + ".voltage_limit"),
                facts.quantity(p + ".leakage"));
    }

    private Part diode(String p) {
        Optional<Origin> saturation = facts.find(p + ".saturation");
        String source = saturation
                .filter(o -> o.kind() == Origin.Kind.CLASS)
                .map(Origin::detail)
                .orElse("given on the sheet");
        return new Part.SeriesDiode(
                facts.text(p + ".name"),
                new DiodeClass(
                        text(p + ".class").orElse("own values"),
                        facts.quantity(p + ".saturation"),
                        facts.quantity(p + ".emission"),
                        facts.quantity(p + ".series_resistance"),
                        facts.quantity(p + ".gap"),
                        facts.quantity(p + ".exponent"),
                        facts.quantity(p + ".leakage"),
                        facts.quantity(p + ".leakage_knee"),
                        facts.quantity(p + ".leakage_doubling"),
                        facts.quantity(p + ".reverse_limit"),
                        facts.quantity(p + ".forward_limit"),
                        source));
    }

    private Part pullUp(String p) {
        return new Part.PullUp(
                facts.text(p + ".name"), facts.quantity(p + ".resistance"), facts.quantity(p + ".tolerance"));
    }

    private Part filter(String p) {
        return new Part.Filter(
                facts.text(p + ".name"), facts.quantity(p + ".resistance"), facts.quantity(p + ".capacitance"));
    }

    private Part levelShift(String p) {
        return new Part.LevelShift(
                facts.text(p + ".name"),
                facts.quantity(p + ".base_resistance"),
                facts.quantity(p + ".on_above"),
                facts.quantity(p + ".gain"),
                facts.quantity(p + ".saturation"),
                facts.quantity(p + ".current_limit"));
    }

    private Part converter(String p) {
        return new Part.Converter(
                facts.text(p + ".name"),
                facts.quantity(p + ".voltage"),
                facts.quantity(p + ".tolerance"),
                facts.quantity(p + ".headroom"),
                facts.quantity(p + ".current_limit"),
                facts.quantity(p + ".efficiency"));
    }

    private Wire wire(String p) {
        int index = Integer.parseInt(p.substring(p.indexOf('[') + 1, p.indexOf(']')));
        return new Wire(
                text(p + ".name").orElse("w" + (index + 1)),
                contact(p + ".from"),
                contact(p + ".to"),
                facts.quantity(p + ".gauge"),
                facts.quantity(p + ".length"),
                facts.quantity(p + ".capacitance_per_metre"),
                text(p + ".colour"));
    }

    private Connector connector(String p) {
        return new Connector(
                facts.text(p + ".name"),
                facts.quantity(p + ".pitch"),
                facts.quantity(p + ".rated_current"),
                facts.quantity(p + ".contact_resistance"),
                marks(p + ".contacts").stream().map(ContactId::parse).toList(),
                text(p + ".touches_first").map(ContactId::parse));
    }

    private ContactNames names(String p) {
        Optional<ContactNames.BenchTest> test = facts.isGiven(p + ".settled_by")
                ? Optional.of(new ContactNames.BenchTest(
                        facts.text(p + ".settled_by.test"),
                        facts.text(p + ".settled_by.found"),
                        text(p + ".settled_by.date")))
                : Optional.empty();
        return new ContactNames(
                contact(p + ".contact"),
                text(p + ".on_board"),
                text(p + ".in_drawing"),
                text(p + ".in_settings"),
                test);
    }
}
