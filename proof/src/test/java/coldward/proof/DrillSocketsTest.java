package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.app.shop.RigClient;
import coldward.app.shop.ShopWatch;
import coldward.app.time.SystemTicker;
import coldward.model.shop.ReadName;
import coldward.model.shop.Shop;
import coldward.rig.RigServer;
import coldward.rig.RigShop;
import coldward.rig.SimulatedPrinter;
import coldward.sheet.Shops;
import coldward.watch.PrinterView;
import coldward.watch.drill.DrillKind;
import coldward.watch.drill.DrillResult;
import coldward.watch.drill.Drills;
import coldward.watch.drill.FailureMoment;
import coldward.watch.guard.FanState;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.BooleanSupplier;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Five drills of each kind over real sockets at the speed of real time, on five printers of one shop at once. */
class DrillSocketsTest {

    private static final Logger SERVER_LOG = Logger.getLogger("io.helidon");
    private static final List<String> PRINTERS = List.of("heron", "robin", "finch", "wren", "plover");

    /** Of 20 drills at most 2 outside the predicted 1 to 99 %: three or more have a chance of 0.7 % (binomial, 0.98). */
    private static final int MOST_OUTSIDE = 2;

    /**
     * s; the longest round trip of a request of this test's own, which says what this computer is late by at the time. The
     * look that trips and the one that confirms are each late by as much.
     */
    private double longestTrip;

    @TempDir
    Path folder;

    private Path file(int port) throws IOException {
        Path file = RiggedShop.write(folder, port);
        String text = Repository.text(file)
                .replace(
                        "  - sheet: heron.yaml\n",
                        "  - sheet: heron.yaml\n    names: [" + String.join(", ", PRINTERS) + "]\n")
                .replace("/heron\"", "/{name}\"");
        return Files.writeString(file, text);
    }

    @Test
    void whatIsMeasuredOverSocketsIsWhatIsPredicted() throws Exception {
        SERVER_LOG.setLevel(Level.WARNING);
        try (SystemTicker ticker = new SystemTicker();
                RigServer rig = RigServer.start(
                        RigShop.of(Shops.read(file(7070)), SimulatedPrinter.Start.PRINTING, 4), 0, ticker)) {
            Shop shop = Shops.read(file(rig.port()));
            try (ShopWatch watch = new ShopWatch(shop, folder.resolve("state"), notice -> {}, ticker);
                    RigClient client = new RigClient(rig.url())) {
                SplittableRandom random = new SplittableRandom(4);
                List<DrillResult> results = new ArrayList<>();
                for (DrillKind kind : DrillKind.values()) {
                    await(client, () -> watch.watch().views().stream().allMatch(DrillSocketsTest::atWork));
                    for (String printer : PRINTERS) {
                        assertThat(watch.drills().begin(printer, kind, Optional.of(0.5), true))
                                .isInstanceOf(Drills.Begin.Ready.class);
                        Thread.sleep(random.nextInt(200));
                        client.post("/" + printer + "/fail/" + word(kind), body(kind));
                        watch.drills().failed(printer, FailureMoment.By.RIG);
                    }
                    await(
                            client,
                            () -> PRINTERS.stream()
                                    .allMatch(p -> watch.drills()
                                            .look(p)
                                            .orElseThrow()
                                            .result()
                                            .isPresent()));
                    for (String printer : PRINTERS) {
                        results.add(watch.drills()
                                .look(printer)
                                .orElseThrow()
                                .result()
                                .orElseThrow());
                        client.post("/" + printer + "/mend", "");
                        client.post("/" + printer + "/work", "");
                        watch.watch().release(printer, "J. Brook", "drill");
                    }
                }
                double late = FailureMoment.By.RIG.uncertain() + 2 * longestTrip;
                long outside = results.stream()
                        .filter(r -> !r.forecast()
                                .orElseThrow()
                                .safe()
                                .holds(r.safe().orElse(1e9), late))
                        .count();
                assertThat(outside).as("late by %s s: %s", late, results).isLessThanOrEqualTo(MOST_OUTSIDE);
            }
        }
    }

    /** At its speed and feeding. */
    private static boolean atWork(PrinterView view) {
        return view.fan() == FanState.TURNING
                && view.speed().orElse(0) > 7800
                && view.reads().find(ReadName.WORKING).orElse(0) > 0.5;
    }

    private static String word(DrillKind kind) {
        return switch (kind) {
            case PULL -> "stop";
            case STALL, LOW_SUPPLY -> "slow";
            case CUT_SIGNAL -> "cut-signal";
        };
    }

    private static String body(DrillKind kind) {
        return switch (kind) {
            case PULL, CUT_SIGNAL -> "";
            case STALL -> "{\"fraction\": 0}";
            case LOW_SUPPLY -> "{\"fraction\": 0.5}";
        };
    }

    private void await(RigClient client, BooleanSupplier wanted) throws InterruptedException {
        for (int i = 0; i < 600 && !wanted.getAsBoolean(); i++) {
            Thread.sleep(100);
            long asked = System.nanoTime();
            client.get("/" + PRINTERS.getFirst() + "/fan");
            longestTrip = Math.max(longestTrip, (System.nanoTime() - asked) / 1e9);
        }
        assertThat(wanted.getAsBoolean()).as("within a minute").isTrue();
    }
}
