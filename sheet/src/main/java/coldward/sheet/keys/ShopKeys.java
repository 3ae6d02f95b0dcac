package coldward.sheet.keys;

import static coldward.quantity.Dimension.TEMPERATURE_STEP;
import static coldward.quantity.Dimension.TIME;
import static coldward.sheet.keys.Key.COMMON_PRACTICE;
import static coldward.sheet.keys.Key.choice;
import static coldward.sheet.keys.Key.group;
import static coldward.sheet.keys.Key.keys;
import static coldward.sheet.keys.Key.quantity;
import static coldward.sheet.keys.Key.text;
import static coldward.sheet.keys.Key.yesNo;

import coldward.model.build.Action;
import coldward.model.shop.ReadName;
import java.util.Arrays;
import java.util.List;

/** Every key of a shop file. */
public final class ShopKeys {

    /** Names go into paths and records: letters, digits, and {@code . _ -} and single blanks between them. */
    private static final Shape.Text NAME = new Shape.Text(
            "[A-Za-z0-9](?:[A-Za-z0-9._ -]{0,62}[A-Za-z0-9])?", "a name of letters, digits, dots and dashes");

    /** JSON Pointer, RFC 6901 section 3. */
    private static final String POINTER = "(?:/(?:[^~/]|~[01])*)*";

    /** The whole file. */
    public static final Shape.Group SHOP = Shape.Group.of(keys(
            text("shop", "brook lane", "the shop's name").required(),
            text("state", "./state", "folder for database, logs and lock, relative to this file; one watch per shop")
                    .or("./state", COMMON_PRACTICE),
            Key.of(
                            "printers",
                            new Shape.Rows(printer(), 1),
                            "[{sheet: heron.yaml, link: {...}}]",
                            "the printers watched together")
                    .required(),
            NoticeKeys.notices()));

    /** By path. */
    public static final Index INDEX = new Index(SHOP);

    private ShopKeys() {}

    private static Shape.Group printer() {
        return Shape.Group.of(keys(
                text("sheet", "heron.yaml", "the build sheet, relative to this file")
                        .required(),
                text("name", NAME.pattern(), NAME.wanted(), "heron", "the printer's name; absent: the sheet's printer")
                        .optional(),
                Key.of(
                                "names",
                                new Shape.Texts(NAME),
                                "[finch-1, finch-2]",
                                "several machines of one sheet; {name} is replaced in the link")
                        .optional(),
                group(
                                "link",
                                Shape.Group.of(link()),
                                "{http: {...}, reads: {...}, acts: {...}, proofs: {...}}",
                                "how the machine is reached")
                        .required(),
                group("rules", Shape.Group.of(rules()), "{unheard_after: 5 s}", "silence and contradiction")
                        .optional()));
    }

    private static List<Key> link() {
        return keys(
                text("like", "heron", "another printer of this shop whose link holds, key by key, unless given here")
                        .optional(),
                group(
                        "http",
                        Shape.Group.of(http()),
                        "{base: \"http://localhost:7070/heron\", every: 500 ms}",
                        "polled over HTTP"),
                choice("says", List.of("always", "on-change"), "always", "when the machine speaks of its speed")
                        .or("always", COMMON_PRACTICE),
                group(
                        "reads",
                        Shape.Group.of(reads()),
                        "{speed: {path: /fan, pointer: /speed_rpm, unit: rpm}}",
                        "where each value is found"),
                group(
                        "acts",
                        Shape.Group.of(acts()),
                        "{hold: {method: POST, path: /do/hold}}",
                        "how each action is requested"),
                group(
                        "proofs",
                        Shape.Group.of(proofs()),
                        "{hold: {read: working, is: false, within: 5 s}}",
                        "which read shows that each action has taken effect"));
    }

    private static List<Key> http() {
        return keys(
                text(
                        "base",
                        "https?://\\S+",
                        "an http or https address",
                        "http://localhost:7070/heron",
                        "address that paths are appended to, without name and password"),
                quantity("every", TIME, "50 ms", "1 h", "500 ms", "between two polls"),
                quantity("time_limit", TIME, "50 ms", "600 s", "2 s", "for one whole exchange, body included")
                        .or("2 s", COMMON_PRACTICE),
                Key.of(
                                "headers",
                                new Shape.Named(Shape.Group.of(keys(
                                        text(
                                                        "env",
                                                        "[A-Za-z_][A-Za-z0-9_]*",
                                                        "the name of an environment variable",
                                                        "HERON_TOKEN",
                                                        "environment variable that holds the value")
                                                .optional(),
                                        text("file", "heron.token", "file that holds the value, relative to this file")
                                                .optional()))),
                                "{Authorization: {env: HERON_TOKEN}}",
                                "sent with every request; values only from the environment or a file, never here")
                        .optional());
    }

    private static List<Key> reads() {
        return Arrays.stream(ReadName.values())
                .map(r -> group(
                                r.word(),
                                Shape.Group.of(keys(
                                        path("/fan"),
                                        text(
                                                        "pointer",
                                                        POINTER,
                                                        "a JSON Pointer (RFC 6901)",
                                                        "/speed_rpm",
                                                        "where in the answer")
                                                .required(),
                                        text("unit", "rpm", "of the number found; none for yes/no and counts")
                                                .optional())),
                                "{path: /fan, pointer: /" + r.word() + "}",
                                ReadUnits.words(r))
                        .optional())
                .toList();
    }

    private static Key path(String example) {
        return text("path", "/[^\\s\\\\]*", "a path that begins with /", example, "appended to the base")
                .required();
    }

    private static List<Key> acts() {
        return Arrays.stream(Action.values())
                .map(a -> group(
                                a.word(),
                                Shape.Group.of(keys(
                                        choice(
                                                        "method",
                                                        List.of("POST", "PUT", "PATCH", "GET", "DELETE"),
                                                        "POST",
                                                        "HTTP method")
                                                .required(),
                                        path("/do/" + a.word()),
                                        Key.of(
                                                        "body",
                                                        new Shape.Body(),
                                                        "{heat: 0}",
                                                        "sent as JSON: a map, or JSON text")
                                                .optional())),
                                "{method: POST, path: /do/" + a.word() + "}",
                                "how " + a.word() + " is requested")
                        .optional())
                .toList();
    }

    private static List<Key> proofs() {
        List<String> reads =
                Arrays.stream(ReadName.values()).map(ReadName::word).toList();
        return Arrays.stream(Action.values())
                .map(a -> group(
                                a.word(),
                                Shape.Group.of(keys(
                                        choice("read", reads, "working", "which of the reads")
                                                .required(),
                                        Key.of(
                                                        "is",
                                                        new Shape.Anything(),
                                                        "false",
                                                        "the value it must have, in the read's own dimension")
                                                .required(),
                                        quantity("within", TIME, "10 ms", "600 s", "5 s", "after the request")
                                                .required(),
                                        Key.of(
                                                        "tolerance",
                                                        new Shape.Anything(),
                                                        "2 K",
                                                        "how far off is still right; 1 K for temperatures, else 0")
                                                .optional())),
                                "{read: working, is: false, within: 5 s}",
                                "what shows that " + a.word() + " has taken effect")
                        .optional())
                .toList();
    }

    private static List<Key> rules() {
        return keys(
                quantity(
                                "unheard_after",
                                TIME,
                                "100 ms",
                                "1 h",
                                "5 s",
                                "without a report; absent: 5 report intervals or 4 polls, whichever is longer")
                        .optional(),
                quantity(
                                "unheard_responds_after",
                                TIME,
                                "0 s",
                                "1 h",
                                "30 s",
                                "of being unheard, hot or working, until the response starts; absent: it only tells")
                        .optional(),
                quantity(
                                "contradicted_rise",
                                TEMPERATURE_STEP,
                                "0.5 K",
                                "100 K",
                                "10 K",
                                "that the cold side may rise within a minute while the speed is fine")
                        .or("10 K", COMMON_PRACTICE),
                yesNo("contradicted_responds", "no", "a contradiction starts the response")
                        .or("no", COMMON_PRACTICE),
                quantity(
                                "drill_every",
                                TIME,
                                "1 h",
                                "1830 d",
                                "90 d",
                                "from one drill to the next; an older one is overdue")
                        .or("90 d", COMMON_PRACTICE));
    }
}
