package coldward.watch.notices;

import coldward.watch.Journal;
import coldward.watch.Notice;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** What the journal says is left of earlier notices. */
final class BoardPast {

    /** ms; older ones are neither delivered nor repeated. */
    private static final long WORTH = Lane.WORTH / 1_000_000;

    /**
     * A notice with something left to do.
     *
     * @param id its id
     * @param notice itself
     * @param unsent channels that were to have it and have not
     * @param open nobody has acknowledged it and nothing has settled it
     * @param repeats how often it was repeated
     */
    record Left(String id, Notice notice, Set<String> unsent, boolean open, int repeats) {
        Left {
            unsent = Set.copyOf(unsent);
        }
    }

    private static final class Found {
        final Notice notice;
        final Set<String> unsent;
        boolean open = true;
        int repeats;

        Found(Notice notice, Set<String> unsent) {
            this.notice = notice;
            this.unsent = unsent;
        }
    }

    private BoardPast() {}

    /** @param channels those there are now */
    static List<Left> of(Journal journal, long wallMillis, Set<String> channels) {
        Map<String, Found> found = new LinkedHashMap<>();
        for (Journal.Kept kept : journal.of("", "notice", "notice-sent", "notice-dropped", "notice-closed")) {
            Journal.Entry entry = kept.entry();
            switch (entry.kind()) {
                case "notice" -> notice(entry, wallMillis, channels, found);
                case "notice-closed" -> each(entry, found, f -> f.open = false);
                default ->
                    each(entry, found, f -> {
                        f.unsent.remove(text(entry, "channel"));
                        if (entry.facts().get("repeat") instanceof Long repeat) {
                            f.repeats = Math.max(f.repeats, repeat.intValue());
                        }
                    });
            }
        }
        List<Left> left = new ArrayList<>();
        found.forEach((id, f) -> {
            if (f.open || !f.unsent.isEmpty()) {
                left.add(new Left(id, f.notice, f.unsent, f.open, f.repeats));
            }
        });
        return left;
    }

    private static void notice(Journal.Entry entry, long wallMillis, Set<String> channels, Map<String, Found> found) {
        if (wallMillis - entry.wallMillis() > WORTH) {
            return;
        }
        String printers = text(entry, "printers");
        // a kind of a later version is told of as what it is: something that happened
        Notice.Kind kind = Notice.Kind.of(text(entry, "about")).orElse(Notice.Kind.FAULT);
        Set<String> unsent = new HashSet<>(Arrays.asList(text(entry, "channels").split(" ", -1)));
        unsent.retainAll(channels);
        found.put(
                text(entry, "id"),
                new Found(
                        new Notice(
                                entry.wallMillis(),
                                printers.isEmpty() ? List.of() : List.of(printers.split(", ", -1)),
                                kind,
                                text(entry, "happened"),
                                text(entry, "done"),
                                text(entry, "next")),
                        unsent));
    }

    private static void each(Journal.Entry entry, Map<String, Found> found, java.util.function.Consumer<Found> what) {
        for (String id : text(entry, "ids").split(" ", -1)) {
            Found one = found.get(id);
            if (one != null) {
                what.accept(one);
            }
        }
    }

    private static String text(Journal.Entry entry, String fact) {
        return entry.facts().get(fact) instanceof String value ? value : "";
    }
}
