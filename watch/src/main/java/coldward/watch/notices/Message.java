package coldward.watch.notices;

import static coldward.quantity.Checks.notBlank;

import coldward.quantity.InputError;
import coldward.watch.Notice;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * What one channel hands over: one notice, a repeat of one, or several that waited for the end of the quiet hours.
 *
 * @param id unique for ever
 * @param shop the shop's name
 * @param notices at least one; more than one only in a summary
 * @param repeat how many times it was said before, 0 for the first
 * @param first id of the message that is repeated; empty if none is
 * @param test whether it is only a try
 */
public record Message(String id, String shop, List<Notice> notices, int repeat, Optional<String> first, boolean test) {
    public Message {
        notBlank("message id", id);
        notBlank("message shop", shop);
        notices = List.copyOf(notices);
        if (notices.isEmpty()) {
            throw new InputError("message notices", "message has no notice but needs at least one");
        }
    }

    /** A notice, said for the first time. */
    public static Message of(String id, String shop, Notice notice) {
        return new Message(id, shop, List.of(notice), 0, Optional.empty(), false);
    }

    /** Whether it sums several notices up. */
    public boolean summary() {
        return notices.size() > 1;
    }

    /** The most urgent of its signals. */
    public Notice.Signal signal() {
        return notices.stream()
                .map(n -> n.kind().signal())
                .min(Comparator.naturalOrder())
                .orElseThrow();
    }

    /** What it is about: the notice's kind, or {@code summary}, or {@code try}. */
    public String about() {
        return test ? "try" : summary() ? "summary" : notices.getFirst().kind().word();
    }

    /** Of whom it tells, each once; empty for matters of the watch itself. */
    public List<String> printers() {
        return notices.stream().flatMap(n -> n.printers().stream()).distinct().toList();
    }

    /** Wall time of the newest thing in it, ms since 1970. */
    public long wallMillis() {
        return notices.stream().mapToLong(Notice::wallMillis).max().orElseThrow();
    }

    /** One line for people, beginning with the signal word. */
    public String line() {
        String what = test
                ? "a try: messages of this shop arrive here"
                : summary()
                        ? notices.size() + " messages from the quiet hours"
                        : notices.getFirst().happened();
        return signal() + " " + shop + ": " + what + (repeat > 0 ? " (repeat " + repeat + ")" : "");
    }
}
