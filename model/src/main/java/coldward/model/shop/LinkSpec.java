package coldward.model.shop;

import static coldward.quantity.Checks.notBlank;
import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.model.build.Action;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;

/** How one machine is reached: a protocol and its mappings, all data. */
public sealed interface LinkSpec {

    /** What proves that each action has taken effect. */
    Map<Action, Proof> proofs();

    /** When a machine speaks of a value. */
    enum Says {
        /** At every report, changed or not. */
        ALWAYS,
        /** Only when it changes; the last value stays valid while the machine answers. */
        ON_CHANGE
    }

    /**
     * A read-back that shows an action's effect.
     *
     * @param read which read
     * @param is the value it must have: SI, 1 for true, 0 for false
     * @param tolerance how far from it is still right, same unit, 0 or above
     * @param withinSeconds s after the request
     */
    record Proof(ReadName read, double is, double tolerance, double withinSeconds) {
        public Proof {
            within("proof tolerance", tolerance, 0, 1e9, "");
            within("proof within", withinSeconds, 0.01, 600, "s");
        }
    }

    /**
     * Polled over HTTP.
     *
     * @param base URL that paths are appended to, without a slash at the end
     * @param every s between two polls
     * @param timeLimit s for one whole exchange, body included
     * @param says when the machine speaks of its speed
     * @param reads where each value is found
     * @param acts how each action is requested
     * @param proofs what shows each action's effect
     * @param headers sent with every request, for example a token; values come from the environment or a file
     */
    record Http(
            String base,
            double every,
            double timeLimit,
            Says says,
            Map<ReadName, HttpRead> reads,
            Map<Action, HttpAct> acts,
            Map<Action, Proof> proofs,
            Map<String, String> headers)
            implements LinkSpec {
        public Http {
            notBlank("http base", base);
            within("http every", every, 0.05, 3600, "s");
            within("http time_limit", timeLimit, 0.05, 600, "s");
            reads = Collections.unmodifiableMap(copy(ReadName.class, reads));
            acts = Collections.unmodifiableMap(copy(Action.class, acts));
            proofs = Collections.unmodifiableMap(copy(Action.class, proofs));
            headers = Map.copyOf(headers);
        }

        private static <K extends Enum<K>, V> EnumMap<K, V> copy(Class<K> type, Map<K, V> from) {
            EnumMap<K, V> map = new EnumMap<>(type);
            map.putAll(from);
            return map;
        }

        /** Secrets stay out of logs and errors. */
        @Override
        public String toString() {
            return "Http[" + base + "]";
        }
    }

    /**
     * One value in a JSON answer.
     *
     * @param path appended to the base
     * @param pointer JSON Pointer (RFC 6901) into the answer
     * @param scale multiplies the number found, giving SI (rpm for speed)
     * @param offset added after scaling
     */
    record HttpRead(String path, String pointer, double scale, double offset) {
        public HttpRead {
            positive("read scale", scale, "");
        }
    }

    /**
     * One request.
     *
     * @param method HTTP method
     * @param path appended to the base
     * @param body JSON text sent with it, if any
     */
    record HttpAct(String method, String path, Optional<String> body) {
        public HttpAct {
            notBlank("act method", method);
        }
    }
}
