package coldward.watch;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.model.build.Action;
import coldward.model.shop.LinkSpec;
import coldward.model.shop.LinkSpec.Proof;
import coldward.model.shop.ReadName;
import coldward.watch.ResponsePlan.Choice;
import coldward.watch.ResponsePlan.Saves;
import coldward.watch.guard.GuardSettings;
import coldward.watch.replay.EventTicker;
import coldward.watch.replay.MemoryJournal;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Consumer;

/** A watched shop over event time. */
final class TestShop implements AutoCloseable {

    static final long S = FakeMachine.S;
    static final Set<Action> THREE = EnumSet.of(Action.HEATER_OFF, Action.HOLD, Action.BLOCK_FAN);
    static final Map<Action, Proof> PROOFS = Map.of(
            Action.HEATER_OFF, new Proof(ReadName.NOZZLE_TARGET, 273.15, 0.5, 2),
            Action.HOLD, new Proof(ReadName.WORKING, 0, 0, 3),
            Action.BLOCK_FAN, new Proof(ReadName.BLOCK_FAN, 1, 0.05, 2),
            Action.POWER_OFF, new Proof(ReadName.POWER, 0, 0, 2));

    final EventTicker ticker;
    final MemoryJournal journal;
    final List<Notice> notices = new ArrayList<>();
    final Map<String, FakeMachine> machines = new LinkedHashMap<>();
    final Watch watch;

    static GuardSettings settings(OptionalLong unheardResponds) {
        return new GuardSettings(
                5200, 3, 5 * S, S / 2, 323.15, LinkSpec.Says.ALWAYS, 4 * S, unheardResponds, 4, false, 2 * S);
    }

    static ResponsePlan plan(Set<Action> actions, Set<Action> mapped, Choice... choices) {
        return new ResponsePlan(actions, List.of(choices), mapped, PROOFS, 3, 60);
    }

    static ResponsePlan usual() {
        return plan(THREE, THREE);
    }

    static Choice choice(double seconds, Action... actions) {
        return new Choice(EnumSet.copyOf(List.of(actions)), new Saves.Until(seconds));
    }

    TestShop(ResponsePlan plan, String... printers) {
        this(plan, new EventTicker(1_800_000_000_000L), new MemoryJournal(), printers);
    }

    TestShop(ResponsePlan plan, EventTicker ticker, MemoryJournal journal, String... printers) {
        this(plan, ticker, journal, machine -> {}, printers);
    }

    /** @param prepare what is done to every machine before the watch first hears of it */
    TestShop(
            ResponsePlan plan,
            EventTicker ticker,
            MemoryJournal journal,
            Consumer<FakeMachine> prepare,
            String... printers) {
        this.ticker = ticker;
        this.journal = journal;
        List<WatchedPrinter> watched = new ArrayList<>();
        for (String name : printers) {
            FakeMachine machine = new FakeMachine(ticker);
            prepare.accept(machine);
            machines.put(name, machine);
            watched.add(new WatchedPrinter(name, settings(OptionalLong.empty()), plan, spec()));
        }
        watch = new Watch(watched, p -> machine(p.name()), journal, History.none(), notices::add, ticker);
    }

    static LinkSpec spec() {
        return new LinkSpec.Http(
                "http://localhost:7070", 0.5, 1, LinkSpec.Says.ALWAYS, Map.of(), Map.of(), Map.of(), Map.of());
    }

    FakeMachine machine(String name) {
        return Objects.requireNonNull(machines.get(name));
    }

    void seconds(double seconds) {
        ticker.advance(Math.round(seconds * S));
    }

    PrinterView heron() {
        return watch.view("heron");
    }

    List<String> kinds(String printer) {
        return journal.of(printer).stream().map(k -> k.entry().kind()).toList();
    }

    List<Notice.Kind> told() {
        return notices.stream().map(Notice::kind).toList();
    }

    /** Ends without a word, as a killed program does; the machine forgets the link. */
    void kill() {
        machines.values().forEach(FakeMachine::close);
    }

    @Override
    public void close() throws IOException {
        String page = Files.readString(Path.of("..", "docs", "journal.md"));
        journal.read(
                1,
                kept -> assertThat(page)
                        .as("docs/journal.md")
                        .contains("| `" + kept.entry().kind() + "` |"));
        watch.close();
        assertThat(machines.values()).allMatch(m -> m.closed);
    }
}
