package coldward.app.command;

import coldward.app.race.Sentences;
import coldward.app.shop.LastDrill;
import coldward.app.shop.Prepared;
import coldward.app.shop.RigClient;
import coldward.app.shop.SampleShop;
import coldward.app.shop.ShopWatch;
import coldward.app.shop.Story;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.Terminal;
import coldward.app.time.SystemTicker;
import coldward.model.shop.Shop;
import coldward.quantity.CannotRun;
import coldward.rig.Aftermath;
import coldward.rig.PrinterRecord;
import coldward.rig.RigServer;
import coldward.rig.RigShop;
import coldward.rig.SimulatedPrinter;
import coldward.sheet.Shops;
import coldward.store.JournalReading;
import coldward.store.Proof;
import coldward.watch.Notice;
import coldward.watch.PrinterView;
import coldward.watch.guard.FanState;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** {@code coldward tour}. */
@Command(
        name = "tour",
        mixinStandardHelpOptions = true,
        description = {
            "The whole story by itself, in under 40 s.",
            "Three simulated printers are watched, one loses its fan, the watch makes it safe; then the 15 minutes after"
                    + " are computed from the rig's recorded state. Ends with 0 only if the softened depth stayed within"
                    + " its limit, the stop was in time and the journal proves.",
            "CAUTION: a fan trip protects the process; it is not fire protection and no certified safety device."
        },
        footer = {"", "Example:", "  coldward tour"})
public final class TourCommand implements Callable<Integer> {

    private static final String FAILED = "heron";
    private static final double AFTER = 900;
    private static final long SETTLE_SECONDS = 15;
    private static final long SAFE_SECONDS = 30;
    private static final long QUIET_SECONDS = 2;

    private final Terminal terminal;

    @Option(names = "--json", description = "print the outcome as JSON (docs/outputs.md, schema 'tour')")
    private boolean json;

    public TourCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        Path folder;
        try {
            folder = Files.createTempDirectory("coldward-tour");
        } catch (IOException e) {
            throw new CannotRun("cannot make a temporary folder: " + e.getMessage(), e);
        }
        try {
            return tour(folder);
        } finally {
            remove(folder);
        }
    }

    private int tour(Path folder) {
        // any free port: a tour never disturbs a shop that is open
        try (SystemTicker ticker = new SystemTicker()) {
            Shop named = Shops.read(SampleShop.layOut(folder, 7070));
            try (RigServer rig = RigServer.start(RigShop.of(named, SimulatedPrinter.Start.PRINTING, 1), 0, ticker);
                    RigClient client = new RigClient(rig.url())) {
                Path shopFile = SampleShop.layOut(folder, rig.port());
                Shop shop = Shops.read(shopFile);
                Path state = JournalCommand.state(shopFile, shop);
                Outcome outcome = watched(shop, state, client, ticker);
                Proof proof = JournalReading.open(state).prove();
                return report(outcome, proof);
            }
        }
    }

    /** What the tour saw. */
    private record Outcome(Story story, Aftermath aftermath, double seconds) {}

    private Outcome watched(Shop shop, Path state, RigClient client, SystemTicker ticker) {
        long began = ticker.nanos();
        say("Three simulated printers, hot and printing; the watch reads their fans over HTTP.");
        LinkedBlockingQueue<PrinterView> views = new LinkedBlockingQueue<>();
        try (ShopWatch watch = new ShopWatch(shop, state, this::notice, ticker)) {
            watch.watch().onView(views::add);
            for (Prepared prepared : watch.printers().values()) {
                say("  " + Sentences.verdict(prepared.assessment(), Optional.empty()) + " Last drill: "
                        + LastDrill.words(Optional.empty(), prepared.printer().rules(), ticker.wallMillis()) + ".");
            }
            Prepared prepared = Objects.requireNonNull(watch.printers().get(FAILED));
            await(views, SETTLE_SECONDS, v -> v.printer().equals(FAILED) && v.fan() == FanState.TURNING, "turning");
            pause(QUIET_SECONDS);
            say("");
            say("Now " + FAILED + "'s fan loses its supply.");
            client.post("/" + FAILED + "/fail/stop", "");
            PrinterView safe = await(
                    views,
                    SAFE_SECONDS,
                    v -> v.printer().equals(FAILED)
                            && v.trip().isPresent()
                            && v.trip().get().outcome() != PrinterView.Outcome.RUNNING,
                    "safe");
            pause(1);
            JsonNode truth = client.get("/" + FAILED + "/truth");
            Story story = Story.of(prepared, safe.trip().orElseThrow(), truth, ticker.nanos());
            Aftermath aftermath =
                    Aftermath.of(prepared.printer().build(), PrinterRecord.ofJson(truth.path("record")), AFTER);
            return new Outcome(story, aftermath, (ticker.nanos() - began) / 1e9);
        }
    }

    private int report(Outcome outcome, Proof proof) {
        boolean whole = proof instanceof Proof.Whole;
        boolean passed = outcome.aftermath().kept() && outcome.story().inTime() && whole;
        if (json) {
            ObjectNode node = outcome.story().json();
            ObjectNode after = node.putObject("aftermath");
            Json.put(after, "after_s", outcome.aftermath().seconds());
            Json.put(after, "deepest_mm", 1e3 * outcome.aftermath().deepest());
            Json.put(after, "limit_mm", 1e3 * outcome.aftermath().limit());
            after.put("kept", outcome.aftermath().kept());
            node.put("journal_whole", whole);
            node.put("passed", passed);
            Json.put(node, "took_s", outcome.seconds());
            terminal.line(Json.text(node));
        } else {
            say("");
            terminal.line(outcome.story().text());
            say("");
            say("In the 15 minutes after, the filament is soft at most %.2f mm up; the limit is %.1f mm."
                    .formatted(
                            1e3 * outcome.aftermath().deepest(),
                            1e3 * outcome.aftermath().limit()));
            say(proof.sentence());
            say(passed ? "Passed: " + left(outcome.story()) : "NOT passed.");
        }
        return (passed ? ExitCode.DONE : ExitCode.NOT_SAFE).number();
    }

    private static String left(Story story) {
        return story.left().isPresent()
                ? "the machine was safe %.1f s before its deadline."
                        .formatted(story.left().getAsDouble())
                : "the machine was safe.";
    }

    private void notice(Notice notice) {
        say("  " + notice.kind().signal().name() + "  " + notice.happened());
    }

    private void say(String text) {
        if (!json) {
            terminal.folded(text, "  ");
        }
    }

    private static PrinterView await(
            LinkedBlockingQueue<PrinterView> views, long seconds, Predicate<PrinterView> wanted, String what) {
        try {
            PrinterView last = null;
            long left = TimeUnit.SECONDS.toNanos(seconds);
            long until = System.nanoTime() + left;
            while (left > 0) {
                PrinterView view = views.poll(left, TimeUnit.NANOSECONDS);
                if (view != null && wanted.test(view)) {
                    return view;
                }
                last = view == null ? last : view;
                left = until - System.nanoTime();
            }
            throw new CannotRun("the tour waited %d s for %s to be %s in vain; last seen: %s"
                    .formatted(
                            seconds,
                            FAILED,
                            what,
                            last == null ? "nothing" : last.fan().word()));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CannotRun("the tour was interrupted", e);
        }
    }

    private static void pause(long seconds) {
        try {
            TimeUnit.SECONDS.sleep(seconds);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CannotRun("the tour was interrupted", e);
        }
    }

    private static void remove(Path folder) {
        try (Stream<Path> files = Files.walk(folder)) {
            List<Path> deepestFirst = files.sorted(Comparator.reverseOrder()).toList();
            for (Path each : deepestFirst) {
                Files.deleteIfExists(each);
            }
        } catch (IOException e) {
            throw new CannotRun("cannot remove the temporary folder " + folder + ": " + e.getMessage(), e);
        }
    }
}
