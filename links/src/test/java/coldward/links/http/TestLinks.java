package coldward.links.http;

import coldward.model.build.Action;
import coldward.model.shop.LinkSpec;
import coldward.model.shop.LinkSpec.HttpAct;
import coldward.model.shop.LinkSpec.HttpRead;
import coldward.model.shop.LinkSpec.Proof;
import coldward.model.shop.LinkSpec.Says;
import coldward.model.shop.ReadName;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;

/** How the tests' machines are mapped. */
final class TestLinks {

    private TestLinks() {}

    static final Map<ReadName, HttpRead> READS = reads();

    private static Map<ReadName, HttpRead> reads() {
        Map<ReadName, HttpRead> reads = new EnumMap<>(ReadName.class);
        reads.put(ReadName.SPEED, new HttpRead("/state", "/fan/speed_rpm", 1, 0));
        reads.put(ReadName.DUTY, new HttpRead("/state", "/fan/duty", 0.01, 0));
        reads.put(ReadName.REPORT, new HttpRead("/state", "/fan/report", 1, 0));
        reads.put(ReadName.WORKING, new HttpRead("/state", "/feeding", 1, 0));
        reads.put(ReadName.NOZZLE, new HttpRead("/heat", "/nozzle_degC", 1, 273.15));
        reads.put(ReadName.NOZZLE_TARGET, new HttpRead("/heat", "/target_degC", 1, 273.15));
        return reads;
    }

    static LinkSpec.Http spec(RawServer server, double every, double timeLimit) {
        return spec(server, every, timeLimit, READS, Says.ALWAYS);
    }

    static LinkSpec.Http spec(
            RawServer server, double every, double timeLimit, Map<ReadName, HttpRead> reads, Says says) {
        return new LinkSpec.Http(
                server.base() + "/heron",
                every,
                timeLimit,
                says,
                reads,
                Map.of(
                        Action.HOLD, new HttpAct("POST", "/do/hold", Optional.empty()),
                        Action.HEATER_OFF, new HttpAct("PUT", "/do/target", Optional.of("{\"target_degC\": 0}"))),
                Map.of(Action.HOLD, new Proof(ReadName.WORKING, 0, 0, 2)),
                Map.of("X-Token", "open-sesame"));
    }
}
