package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.Error;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/** The published schemas of the commands' outputs, as {@code coldward schema NAME} prints them. */
final class OutputSchemas {

    private static final Map<String, Schema> READ = new ConcurrentHashMap<>();

    private OutputSchemas() {}

    /** What of a JSON text does not fit; empty if all of it fits. */
    static List<Error> misfits(String name, String json) {
        return READ.computeIfAbsent(name, OutputSchemas::read).validate(json, InputFormat.JSON);
    }

    /** Fails with the misfits if there are any. */
    static void assertFits(String name, String json) {
        assertThat(misfits(name, json)).as("%s: %s", name, json).isEmpty();
    }

    private static Schema read(String name) {
        return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(CommandRun.of("schema", name).out(), InputFormat.JSON);
    }
}
