package coldward.watch.fitted;

import static coldward.quantity.Checks.notBlank;
import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.within;

import coldward.watch.Journal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * A fan as it was fitted.
 *
 * @param label what is written on it or given to it, not blank
 * @param lot its lot, if known
 * @param why why the fan before was taken out, if told
 * @param speed rated, rpm
 * @param pulsesPerTurn 1 to 12; 0 without a pulse signal
 * @param thirdWire what its third wire says
 */
public record FittedFan(
        String label, Optional<String> lot, Optional<Why> why, double speed, int pulsesPerTurn, ThirdWire thirdWire) {

    /** The kind of its journal entry. */
    public static final String ENTRY = "service";

    /** A share by which two rated speeds may differ and still count as the same: the trade's tolerance of one fan. */
    private static final double SAME_SPEED = 0.1;

    /** Why a fan is taken out. */
    public enum Why {
        WORN,
        JAMMED,
        NOISE,
        UPGRADE;

        /** The word in commands and records. */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /** What a third wire says. */
    public enum ThirdWire {
        /** Pulses while it turns. */
        PULSES("pulses"),
        /** A level that tells a locked rotor. */
        LOCKED("locked"),
        /** A level that tells a low speed. */
        LOW_SPEED("low-speed"),
        /** There is none. */
        NONE("none");

        private final String word;

        ThirdWire(String word) {
            this.word = word;
        }

        /** The word in commands and records. */
        public String word() {
            return word;
        }
    }

    public FittedFan {
        notBlank("fitted fan", label);
        lot.ifPresent(l -> notBlank("lot", l));
        notNegative("rated speed", speed, "rpm");
        within("pulses per turn", pulsesPerTurn, 0, 12);
    }

    /**
     * A life of a fan in a printer.
     *
     * @param fan which
     * @param from fitted, wall time, ms since 1970
     * @param until when the next one was fitted, and why; empty while it is fitted
     */
    public record Life(FittedFan fan, long from, Optional<End> until) {}

    /** The end of a life: when, wall time, ms since 1970, and why, if told. */
    public record End(long at, Optional<Why> why) {}

    /** The lives told by a printer's journal, oldest first. */
    public static List<Life> lives(List<Journal.Kept> entries) {
        List<Life> lives = new ArrayList<>();
        for (Journal.Kept kept : entries) {
            Journal.Entry entry = kept.entry();
            if (!entry.kind().equals(ENTRY)) {
                continue;
            }
            FittedFan fan = of(entry.facts());
            if (!lives.isEmpty()) {
                Life last = lives.removeLast();
                lives.add(new Life(last.fan(), last.from(), Optional.of(new End(entry.wallMillis(), fan.why()))));
            }
            lives.add(new Life(fan, entry.wallMillis(), Optional.empty()));
        }
        return lives;
    }

    private static FittedFan of(SortedMap<String, Object> facts) {
        return new FittedFan(
                String.valueOf(facts.getOrDefault("fan", "unnamed")),
                Optional.ofNullable(facts.get("lot")).map(String::valueOf),
                Optional.ofNullable(facts.get("why")).flatMap(w -> find(Why.values(), Why::word, w)),
                facts.get("speed_rpm") instanceof Long rpm ? rpm : 0,
                facts.get("pulses_per_turn") instanceof Long pulses ? pulses.intValue() : 0,
                find(ThirdWire.values(), ThirdWire::word, String.valueOf(facts.get("third_wire")))
                        .orElse(ThirdWire.NONE));
    }

    private static <T> Optional<T> find(T[] all, java.util.function.Function<T, String> word, Object wanted) {
        for (T each : all) {
            if (word.apply(each).equals(wanted)) {
                return Optional.of(each);
            }
        }
        return Optional.empty();
    }

    /** Its journal entry's facts. */
    public SortedMap<String, Object> facts(Optional<String> before) {
        SortedMap<String, Object> facts = new TreeMap<>();
        facts.put("fan", label);
        before.ifPresent(b -> facts.put("before", b));
        lot.ifPresent(l -> facts.put("lot", l));
        why.ifPresent(w -> facts.put("why", w.word()));
        facts.put("speed_rpm", Math.round(speed));
        facts.put("pulses_per_turn", (long) pulsesPerTurn);
        facts.put("third_wire", thirdWire.word());
        return facts;
    }

    /**
     * What differs from another fan, each with what follows.
     *
     * @param other the fan before, or the one that the sheet describes
     * @param called how the other is called in the sentences
     */
    public List<String> differences(FittedFan other, String called) {
        List<String> found = new ArrayList<>();
        if (Math.abs(speed - other.speed) > SAME_SPEED * other.speed) {
            found.add(
                    "its rated speed is %.0f rpm, that of %s %.0f rpm: enter it on the sheet and let the trip speed be chosen again"
                            .formatted(speed, called, other.speed));
        }
        if (pulsesPerTurn != other.pulsesPerTurn) {
            found.add(
                    ("it gives %d pulses per turn, %s %d: the shown speed is wrong by that factor until pulses_per_turn"
                                    + " is changed")
                            .formatted(pulsesPerTurn, called, other.pulsesPerTurn));
        }
        if (thirdWire != other.thirdWire) {
            found.add("its third wire says %s, that of %s %s: %s"
                    .formatted(
                            thirdWire.word,
                            called,
                            other.thirdWire.word,
                            thirdWire == ThirdWire.PULSES
                                    ? "describe the reading on the sheet"
                                    : "no speed can be read from it, so nothing watches this fan"));
        }
        return found;
    }
}
