package coldward.proof;

import coldward.app.shop.RigClient;
import coldward.app.shop.SampleShop;
import coldward.app.time.SystemTicker;
import coldward.rig.RigServer;
import coldward.rig.RigShop;
import coldward.rig.SimulatedPrinter;
import coldward.sheet.Shops;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.logging.Level;
import java.util.logging.Logger;
import tools.jackson.databind.JsonNode;

/** A shop of one printer, heron of the sample shop, printing on a rig in this process. */
final class RiggedShop implements AutoCloseable {

    /** Held, so that the level stays; as the command line does. */
    private static final Logger SERVER_LOG = Logger.getLogger("io.helidon");

    private final SystemTicker ticker;
    private final RigServer rig;
    private final RigClient client;
    private final Path file;

    private RiggedShop(SystemTicker ticker, RigServer rig, Path file) {
        this.ticker = ticker;
        this.rig = rig;
        this.client = new RigClient(rig.url());
        this.file = file;
    }

    /** Lays the shop out in a folder and starts its rig on a free port. */
    static RiggedShop in(Path folder, long seed) {
        SERVER_LOG.setLevel(Level.WARNING);
        Path file = write(folder, 7070);
        SystemTicker ticker = new SystemTicker();
        RigServer rig = RigServer.start(RigShop.of(Shops.read(file), SimulatedPrinter.Start.PRINTING, seed), 0, ticker);
        return new RiggedShop(ticker, rig, write(folder, rig.port()));
    }

    /** Only the files. */
    static Path write(Path folder, int port) {
        Path file = SampleShop.layOut(folder, port);
        String all = Repository.text(file);
        try {
            return Files.writeString(file, all.substring(0, all.indexOf("  - sheet: robin.yaml")));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    Path file() {
        return file;
    }

    String url() {
        return rig.url();
    }

    void failHeron(String failure) {
        client.post("/heron/fail/" + failure, "");
    }

    JsonNode heron(String what) {
        return client.get("/heron/" + what);
    }

    @Override
    public void close() {
        client.close();
        rig.close();
        ticker.close();
    }
}
