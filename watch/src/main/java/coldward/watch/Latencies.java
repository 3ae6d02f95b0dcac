package coldward.watch;

import coldward.model.build.Action;
import coldward.quantity.InputError;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What a printer's own responses took, out of the journal. A request's time is from sending it to the machine's answer, an
 * upper bound of the way there. An action's time is from that answer to its read-back, and so holds up to one report or
 * poll too much. Actions that nothing but the answer confirms have no time of their own; an action that took several
 * attempts counts with the one that was confirmed.
 *
 * @param responses responses of which something was measured
 * @param request from sending to the answer, s
 * @param effect from the answer to the read-back, s, by action
 */
public record Latencies(int responses, List<Double> request, Map<Action, List<Double>> effect) {

    private static final List<String> KINDS = List.of("response-started", "action-taken", "action-confirmed");

    public Latencies {
        request = List.copyOf(request);
        Map<Action, List<Double>> copy = new EnumMap<>(Action.class);
        effect.forEach((action, times) -> copy.put(action, List.copyOf(times)));
        effect = Collections.unmodifiableMap(copy);
    }

    /** The half of values that is not above it ends here; for an even number the middle of the two middle ones. */
    public static double median(List<Double> values) {
        List<Double> sorted = sorted(values);
        int half = sorted.size() / 2;
        return sorted.size() % 2 == 1 ? sorted.get(half) : (sorted.get(half - 1) + sorted.get(half)) / 2;
    }

    /** The longest. */
    public static double worst(List<Double> values) {
        return sorted(values).getLast();
    }

    private static List<Double> sorted(List<Double> values) {
        if (values.isEmpty()) {
            throw new InputError("times", "there is no measured time but at least one is needed");
        }
        return values.stream().sorted().toList();
    }

    /**
     * The times in a printer's entries.
     *
     * @param entries of one printer, of these {@link #kinds} or more, oldest first
     */
    public static Latencies of(List<Journal.Kept> entries) {
        Reader reader = new Reader();
        entries.forEach(kept -> reader.read(kept.entry()));
        return new Latencies(reader.responses, reader.request, reader.effect);
    }

    /** Kinds of journal entries that are looked at. */
    public static String[] kinds() {
        return KINDS.toArray(String[]::new);
    }

    /** All of several printers, as if they were one machine. */
    public static Latencies together(List<Latencies> all) {
        List<Double> request = new ArrayList<>();
        Map<Action, List<Double>> effect = new EnumMap<>(Action.class);
        int responses = 0;
        for (Latencies each : all) {
            responses += each.responses;
            request.addAll(each.request);
            each.effect.forEach((action, times) ->
                    effect.computeIfAbsent(action, a -> new ArrayList<>()).addAll(times));
        }
        return new Latencies(responses, request, effect);
    }

    /** Goes through one printer's entries. */
    private static final class Reader {
        final List<Double> request = new ArrayList<>();
        final Map<Action, List<Double>> effect = new EnumMap<>(Action.class);
        int responses;

        private record Taken(long attempt, long millis) {}

        private final Map<Action, Taken> taken = new EnumMap<>(Action.class);
        private boolean measured;

        void read(Journal.Entry entry) {
            Optional<Action> action = Action.of(String.valueOf(entry.facts().get("action")));
            if (entry.kind().equals("response-started")) {
                taken.clear();
                measured = false;
            } else if (entry.kind().equals("action-taken") && action.isPresent()) {
                count();
                taken.put(action.get(), new Taken(number(entry, "attempt"), number(entry, "ms")));
                request.add(number(entry, "ms") / 1000.0);
            } else if (entry.kind().equals("action-confirmed")
                    && action.isPresent()
                    && "read-back".equals(entry.facts().get("by"))) {
                count();
                effect.computeIfAbsent(action.get(), a -> new ArrayList<>()).add(effect(entry, action.get()));
            }
        }

        private double effect(Journal.Entry entry, Action action) {
            // entries of earlier versions know only the time since the first request
            boolean whole = !entry.facts().containsKey("ms_of_attempt");
            long millis = number(entry, whole ? "ms" : "ms_of_attempt");
            Taken answer = taken.get(action);
            long attempt = whole ? 1 : number(entry, "attempt");
            long before = answer != null && answer.attempt == attempt ? answer.millis : 0;
            return Math.max(0, millis - before) / 1000.0;
        }

        private void count() {
            if (!measured) {
                measured = true;
                responses++;
            }
        }

        private static long number(Journal.Entry entry, String fact) {
            return entry.facts().get(fact) instanceof Long value ? value : 0;
        }
    }
}
