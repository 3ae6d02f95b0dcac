package coldward.proof;

import coldward.app.shop.Prepared;
import coldward.model.shop.ReadName;
import coldward.rig.PrinterRecord;
import coldward.rig.SimulatedPrinter;
import coldward.rig.Traits;
import coldward.sheet.Shops;
import coldward.watch.Journal;
import coldward.watch.Notice;
import coldward.watch.PrinterView;
import coldward.watch.Watch;
import coldward.watch.drill.Drills;
import coldward.watch.replay.EventTicker;
import coldward.watch.replay.MemoryHistory;
import coldward.watch.replay.MemoryJournal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;

/** Heron, simulated and watched in this process over event time, with everything recorded. */
final class SimulatedShop implements AutoCloseable {

    static final long S = 1_000_000_000L;

    final EventTicker ticker;
    final MemoryJournal journal;
    final MemoryHistory history = new MemoryHistory(100_000);
    final List<Notice> notices = new ArrayList<>();
    final Prepared heron;
    final SimulatedLink link;
    final Watch watch;
    final Drills drills;

    SimulatedShop(Prepared heron, PrinterRecord from, MemoryJournal journal, Set<ReadName> hidden) {
        this.heron = heron;
        this.journal = journal;
        this.ticker = new EventTicker(1_800_000_000_000L);
        SimulatedPrinter printer = SimulatedPrinter.restored(heron.printer().build(), from, Traits.USUAL, 5);
        this.link = new SimulatedLink(printer, ticker, S / 10, S / 4, S / 200, hidden);
        this.watch =
                new Watch(List.of(heron.watched().orElseThrow()), p -> link, journal, history, notices::add, ticker);
        this.drills = DrillForecastTest.drills(watch, ticker, heron);
    }

    /** Heron of the sample shop with everything computed. */
    static Prepared heron(Path folder) {
        return Objects.requireNonNull(
                Prepared.all(Shops.read(RiggedShop.write(folder, 7070))).get("heron"));
    }

    /** Hot and steady. */
    static PrinterRecord settled(Prepared heron, SimulatedPrinter.Start start) {
        return SimulatedPrinter.of("heron", heron.printer().build(), start, Traits.USUAL, 1)
                .record();
    }

    void seconds(double seconds) {
        ticker.advance(Math.round(seconds * S));
    }

    PrinterView view() {
        return watch.view("heron");
    }

    /** The newest journal entry of a kind. */
    Journal.Entry newest(String kind) {
        return journal.latest("heron", kind).orElseThrow().entry();
    }

    @Override
    public void close() {
        watch.close();
        String page = Repository.text(Path.of("..", "docs", "journal.md"));
        journal.read(
                1,
                kept -> org.assertj.core.api.Assertions.assertThat(page)
                        .as("docs/journal.md")
                        .contains("| `" + kept.entry().kind() + "` |"));
    }
}
