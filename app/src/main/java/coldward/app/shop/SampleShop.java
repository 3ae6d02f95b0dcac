package coldward.app.shop;

import coldward.app.terminal.WholeFile;
import coldward.quantity.CannotRun;
import coldward.quantity.OwnBug;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** The sample shop that comes along, laid out in a folder where it can be looked at and changed. */
public final class SampleShop {

    private static final String SHOP = "brook-lane.yaml";
    private static final List<String> SHEETS = List.of("heron.yaml", "robin.yaml", "finch.yaml");
    private static final String PORT = "localhost:7070";

    private SampleShop() {}

    /**
     * Writes the sheets and the shop file that are not there yet.
     *
     * @param folder made if missing
     * @param port the rig's
     * @return the shop file
     */
    public static Path layOut(Path folder, int port) {
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw new CannotRun("cannot make the folder " + folder + " for the sample shop: " + e.getMessage(), e);
        }
        for (String sheet : SHEETS) {
            Path file = folder.resolve(sheet);
            if (!Files.exists(file)) {
                WholeFile.write(file, resource(sheet));
            }
        }
        Path shop = folder.resolve(SHOP);
        // the port is this run's, so the shop file is written each time
        WholeFile.write(shop, resource(SHOP).replace(PORT, "localhost:" + port));
        return shop;
    }

    private static String resource(String name) {
        try (InputStream in = SampleShop.class.getResourceAsStream("/coldward/demo/" + name)) {
            if (in == null) {
                throw new OwnBug("the sample " + name + " is not packaged");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new OwnBug("the sample " + name + " cannot be read", e);
        }
    }
}
