package coldward.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.sheet.keys.KeyTable;
import coldward.sheet.keys.Schemas;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The published schemas and the reference of keys are what the catalogue generates. After a change of the catalogue run
 * the tests once with {@code -DargLine=-Dcoldward.publish=true} and commit what it writes.
 */
class PublishedTest {

    @ParameterizedTest
    @ValueSource(
            strings = {
                "src/main/resources/coldward/schema/sheet.schema.json",
                "src/main/resources/coldward/schema/shop.schema.json",
                "../docs/sheet.md"
            })
    void isWhatTheCatalogueGenerates(String name) throws IOException {
        Path file = Path.of(name);
        String generated = switch (file.getFileName().toString()) {
            case "sheet.schema.json" -> Schemas.sheet();
            case "shop.schema.json" -> Schemas.shop();
            default -> KeyTable.markdown();
        };
        if (Boolean.getBoolean("coldward.publish")) {
            Files.writeString(file, generated);
        }
        assertThat(file).content().isEqualTo(generated);
    }
}
