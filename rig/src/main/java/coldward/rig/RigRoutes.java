package coldward.rig;

import coldward.model.build.Action;
import coldward.quantity.InputError;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Which request means what. Knows paths and bodies, no server. */
final class RigRoutes {

    /** Without a body a slowed fan turns at this share of its speed. */
    private static final double USUAL_FRACTION = 0.5;

    /** Without a body a fading fan stands after so many minutes. */
    private static final double USUAL_FADE_MINUTES = 5;

    private static final double LONGEST_FADE_MINUTES = 1440;
    private static final double SECONDS_PER_MINUTE = 60;

    private static final List<String> READS = List.of("fan", "heat", "job", "power", "truth");
    private static final List<String> VERBS = List.of("do", "fail", "mend", "work");

    private final Map<String, RunningPrinter> printers = new LinkedHashMap<>();

    RigRoutes(List<RunningPrinter> printers) {
        printers.forEach(p -> this.printers.put(p.name(), p));
    }

    /**
     * An answer.
     *
     * @param status HTTP status
     * @param json its body
     * @param allowed the method that would have been right; empty unless the status is 405
     */
    record Answer(int status, JsonNode json, String allowed) {}

    Answer answer(String method, String path, byte[] body) {
        try {
            return route(method, path, body);
        } catch (InputError e) {
            return refusal(400, String.valueOf(e.getMessage()));
        }
    }

    static Answer refusal(int status, String sentence) {
        return new Answer(status, Answers.object().put("error", sentence), "");
    }

    private static Answer done(JsonNode json) {
        return new Answer(200, json, "");
    }

    private Answer route(String method, String path, byte[] body) {
        List<String> parts =
                Arrays.stream(path.split("/", -1)).filter(p -> !p.isEmpty()).toList();
        if (parts.isEmpty()) {
            return method.equals("GET") ? done(list()) : wrongMethod("GET", path);
        }
        RunningPrinter printer = printers.get(parts.getFirst());
        if (printer == null) {
            return refusal(
                    404,
                    "There is no printer '" + parts.getFirst() + "' on this rig. There are: "
                            + String.join(", ", printers.keySet()) + ".");
        }
        String what = parts.size() > 1 ? parts.get(1) : "";
        if (parts.size() == 2 && READS.contains(what)) {
            return method.equals("GET") ? done(read(printer, what)) : wrongMethod("GET", path);
        }
        boolean named = parts.size() == 3 && (what.equals("do") || what.equals("fail"));
        boolean bare = parts.size() == 2 && (what.equals("mend") || what.equals("work"));
        if (!named && !bare) {
            return nothingHere(printer, what, parts.size());
        }
        if (!method.equals("POST")) {
            return wrongMethod("POST", path);
        }
        return switch (what) {
            case "do" -> act(printer, parts.get(2), body);
            case "fail" -> fail(printer, parts.get(2), body);
            case "mend" -> mend(printer, body);
            default -> work(printer, body);
        };
    }

    private static Answer wrongMethod(String right, String path) {
        Answer refusal = refusal(405, path + " answers to " + right + " only.");
        return new Answer(refusal.status(), refusal.json(), right);
    }

    private Answer nothingHere(RunningPrinter printer, String what, int length) {
        if (VERBS.contains(what) && length == 2) {
            return refusal(
                    404,
                    "Say what to " + what + ", for example /" + printer.name() + "/" + what + "/"
                            + (what.equals("do") ? Action.HOLD.word() : Failure.WORDS.getFirst()) + ".");
        }
        return refusal(
                404,
                "There is nothing at '" + what + "' of " + printer.name() + ". GET: " + String.join(", ", READS)
                        + "; POST: do/..., fail/..., mend, work.");
    }

    private ObjectNode list() {
        ObjectNode told = Answers.object();
        ArrayNode names = told.putArray("printers");
        printers.keySet().forEach(names::add);
        ArrayNode reads = told.putArray("reads");
        READS.forEach(reads::add);
        ArrayNode acts = told.putArray("actions");
        Arrays.stream(Action.values()).map(Action::word).forEach(acts::add);
        ArrayNode failures = told.putArray("failures");
        Failure.WORDS.forEach(failures::add);
        return told;
    }

    private static JsonNode read(RunningPrinter printer, String what) {
        return printer.now(p -> switch (what) {
            case "fan" -> Answers.fan(p.shown());
            case "heat" -> Answers.heat(p.shown());
            case "job" -> Answers.job(p.shown());
            case "power" -> Answers.power(p.shown());
            default -> Answers.truth(p.truth(), p.record());
        });
    }

    private static Answer act(RunningPrinter printer, String word, byte[] body) {
        Optional<Action> action = Action.of(word);
        if (action.isEmpty()) {
            return refusal(
                    404,
                    "There is no action '" + word + "'. There are: "
                            + String.join(
                                    ", ",
                                    Arrays.stream(Action.values())
                                            .map(Action::word)
                                            .toList())
                            + ".");
        }
        // what a body says does not matter to an action: some machines' requests carry one
        if (body.length > 0) {
            Answers.anything(body);
        }
        return done(printer.now(p -> {
            PrinterRecord.Asked when = p.act(action.get());
            return Answers.object()
                    .put("printer", p.name())
                    .put("action", word)
                    .put("rig_ms", Answers.millis(p.truth().at()))
                    .put("effective_ms", Answers.millis(when.effective()));
        }));
    }

    private static Answer fail(RunningPrinter printer, String word, byte[] body) {
        Set<String> known = switch (word) {
            case "slow" -> Set.of("fraction");
            case "fade" -> Set.of("minutes");
            default -> Set.of();
        };
        JsonNode said = Answers.body(body, known);
        double minutes = Answers.number(said, "minutes", USUAL_FADE_MINUTES);
        if (!(minutes > 0 && minutes <= LONGEST_FADE_MINUTES)) {
            throw new InputError("minutes", "'minutes' must be above 0 and at most 1440.");
        }
        double fraction = Answers.number(said, "fraction", USUAL_FRACTION);
        Optional<Failure> failure = Failure.of(word, fraction, minutes * SECONDS_PER_MINUTE);
        if (failure.isEmpty()) {
            return refusal(
                    404, "There is no failure '" + word + "'. There are: " + String.join(", ", Failure.WORDS) + ".");
        }
        return done(printer.now(p -> {
            p.fail(failure.get());
            return Answers.object()
                    .put("printer", p.name())
                    .put("failure", word)
                    .put("rig_ms", Answers.millis(p.truth().at()));
        }));
    }

    private static Answer mend(RunningPrinter printer, byte[] body) {
        Answers.body(body, Set.of());
        return done(printer.now(p -> {
            p.mend();
            return Answers.object()
                    .put("printer", p.name())
                    .put("mended", true)
                    .put("rig_ms", Answers.millis(p.truth().at()));
        }));
    }

    private static Answer work(RunningPrinter printer, byte[] body) {
        JsonNode said = Answers.body(body, Set.of("feeding", "nozzle_target_degC"));
        return done(printer.now(p -> {
            double usual = p.build().hotEnd().nozzle();
            double target = said.has("nozzle_target_degC")
                    ? Answers.kelvin(Answers.number(said, "nozzle_target_degC", 0))
                    : usual;
            // 0 degC is how this layout says that the heater is off
            double nozzle = target == Answers.kelvin(0) ? 0 : target;
            boolean feeding = Answers.yes(said, "feeding", nozzle > 0);
            p.work(nozzle, feeding);
            return Answers.heat(p.shown()).put("printer", p.name()).put("feeding", feeding);
        }));
    }
}
