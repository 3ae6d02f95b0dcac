package coldward.sheet.yaml;

import coldward.quantity.DataError;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Parse;
import org.snakeyaml.engine.v2.events.AliasEvent;
import org.snakeyaml.engine.v2.events.CollectionStartEvent;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.events.NodeEvent;
import org.snakeyaml.engine.v2.events.ScalarEvent;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.Tag;
import org.snakeyaml.engine.v2.resolver.ScalarResolver;
import org.snakeyaml.engine.v2.schema.CoreSchema;

/**
 * Reads one YAML file into a {@link Tree}, within limits, from the parser's events. Throws {@link DataError} with file,
 * line and remedy for everything that is not one small, plain YAML document.
 */
public final class YamlFile {

    /** The largest file read, bytes. */
    public static final int LARGEST = 1 << 20;

    private static final int DEEPEST = 24;
    private static final int MOST_VALUES = 20_000;
    private static final int ONE_FILE_SEPARATOR = 1;

    private final String name;
    private final String text;
    private final Iterator<Event> events;
    private final ScalarResolver resolver;
    private final Map<String, Tree> anchors = new HashMap<>();
    private final Map<String, Long> sizes = new HashMap<>();
    private final Deque<String> path = new ArrayDeque<>();
    private final boolean onlyBasic;
    private long values;

    private YamlFile(String name, String text) {
        this.name = name;
        this.text = text;
        LoadSettings settings = LoadSettings.builder()
                .setLabel(name)
                .setSchema(new CoreSchema())
                .setUseMarks(true)
                .setCodePointLimit(LARGEST + ONE_FILE_SEPARATOR)
                .build();
        this.resolver = settings.getSchema().getScalarResolver();
        this.events = new Parse(settings).parseString(text).iterator();
        this.onlyBasic = text.chars().noneMatch(c -> Character.isSurrogate((char) c));
    }

    /** The text of a file: UTF-8, without a byte order mark. */
    public static String text(Path file) {
        String name = file.toString();
        Place whole = Place.of(name);
        if (!Files.exists(file)) {
            throw whole.error("", "there is no such file; check the path");
        }
        if (Files.isDirectory(file)) {
            throw whole.error(
                    "", "this is a folder; name the YAML file in it, for example " + file.resolve("heron.yaml"));
        }
        if (!Files.isRegularFile(file)) {
            throw whole.error("", "this is not a regular file; name a YAML file");
        }
        byte[] bytes;
        try (InputStream in = Files.newInputStream(file)) {
            bytes = in.readNBytes(LARGEST + 1);
        } catch (AccessDeniedException e) {
            throw whole.error("", "this file may not be read; give yourself permission to read it");
        } catch (IOException e) {
            throw whole.error("", "this file could not be read (" + e.getMessage() + "); check the disk and the path");
        }
        if (bytes.length > LARGEST) {
            throw whole.error("", "this file is larger than 1 MiB; a sheet has a few kilobytes: is it the right file?");
        }
        return decoded(name, bytes);
    }

    private static String decoded(String name, byte[] bytes) {
        for (int i = 0, line = 1; i < bytes.length; i++) {
            if (bytes[i] == 0) {
                throw new DataError(
                        name,
                        line,
                        "",
                        "there is a zero byte: this is a binary file or not UTF-8; save it as UTF-8 text");
            }
            line += bytes[i] == '\n' ? 1 : 0;
        }
        String text;
        ByteBuffer buffer = ByteBuffer.wrap(bytes);
        try {
            text = StandardCharsets.UTF_8
                    .newDecoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .onUnmappableCharacter(CodingErrorAction.REPORT)
                    .decode(buffer)
                    .toString();
        } catch (CharacterCodingException e) {
            int line = 1;
            for (int i = 0; i < buffer.position(); i++) {
                line += bytes[i] == '\n' ? 1 : 0;
            }
            throw new DataError(name, line, "", "there are bytes that are not UTF-8; save the file as UTF-8 text");
        }
        return text.startsWith("\uFEFF") ? text.substring(1) : text;
    }

    /** The tree of a file. */
    public static Tree read(Path file) {
        return parse(file.toString(), text(file));
    }

    /**
     * The tree of a text.
     *
     * @param name the file's name for errors
     */
    public static Tree parse(String name, String text) {
        try {
            return new YamlFile(name, text).document();
        } catch (MarkedYamlEngineException e) {
            int line = e.getProblemMark().map(m -> m.getLine() + 1).orElse(0);
            throw new DataError(name, line, "", problem(e));
        } catch (YamlEngineException e) {
            throw new DataError(
                    name,
                    0,
                    "",
                    "this is not YAML (" + firstLine(String.valueOf(e.getMessage())) + "); save it as UTF-8 text");
        }
    }

    private static String problem(MarkedYamlEngineException e) {
        String problem = firstLine(String.valueOf(e.getProblem()));
        if (problem.contains("TAB")) {
            return "there is a tab where YAML wants spaces; indent with spaces, for example two";
        }
        String context = e.getContext() == null ? "" : firstLine(e.getContext()) + ", ";
        return "this is not YAML: " + context + problem + "; write key: value, and close every bracket and quote";
    }

    private static String firstLine(String text) {
        int end = text.indexOf('\n');
        String line = end < 0 ? text : text.substring(0, end);
        return line.length() > 200 ? line.substring(0, 200) + "..." : line;
    }

    private Tree document() {
        Tree tree = null;
        while (events.hasNext()) {
            Event event = events.next();
            switch (event.getEventId()) {
                case StreamStart, DocumentEnd, StreamEnd, Comment -> {
                    // nothing to read
                }
                case DocumentStart -> {
                    if (tree != null) {
                        throw place(event).error("", "a second document begins here; keep one document in a file");
                    }
                }
                default -> tree = value(event, 0);
            }
        }
        if (tree == null || (tree instanceof Tree.Scalar s && s.kind() == Tree.Kind.NOTHING)) {
            throw Place.of(name).error("", "this file is empty; `coldward sheet new` writes a starter sheet");
        }
        return tree;
    }

    private Tree value(Event event, int depth) {
        if (depth > DEEPEST) {
            throw place(event)
                    .error("", "values are nested deeper than " + DEEPEST + " levels; a sheet needs 6 at most");
        }
        if (event instanceof AliasEvent alias) {
            return aliased(alias);
        }
        count(event, 1);
        long before = values;
        Tree tree = switch (event) {
            case ScalarEvent scalar -> scalar(scalar);
            case CollectionStartEvent start when start.getEventId() == Event.ID.SequenceStart -> sequence(start, depth);
            case CollectionStartEvent start -> dict(start, depth);
            default -> throw place(event).error("", "this is not YAML; write key: value");
        };
        Optional<String> anchor = ((NodeEvent) event).getAnchor().map(a -> a.getValue());
        anchor.ifPresent(a -> {
            anchors.put(a, tree);
            sizes.put(a, values - before + 1);
        });
        return tree;
    }

    private void count(Event event, long more) {
        values += more;
        if (values > MOST_VALUES) {
            throw place(event)
                    .error(
                            "",
                            "the file holds more than " + MOST_VALUES
                                    + " values once its aliases are followed; write out what you need");
        }
    }

    private Tree aliased(AliasEvent event) {
        String anchor = event.getAlias().getValue();
        Tree target = anchors.get(anchor);
        if (target == null) {
            throw place(event)
                    .error(
                            "",
                            "*" + anchor + " names no finished value before it; write &" + anchor
                                    + " before that value");
        }
        count(event, sizes.getOrDefault(anchor, 1L));
        return Tree.alias(target, place(event));
    }

    private Tree scalar(ScalarEvent event) {
        Tag tag = event.getTag()
                .filter(t -> !t.equals("!"))
                .map(Tag::new)
                .orElseGet(() -> event.getImplicit().canOmitTagInPlainScalar()
                        ? resolver.resolve(event.getValue(), true)
                        : Tag.STR);
        return new Tree.Scalar(event.getValue(), kind(tag, event), false, place(event));
    }

    private Tree.Kind kind(Tag tag, Event event) {
        if (tag.equals(Tag.STR)) {
            return Tree.Kind.TEXT;
        } else if (tag.equals(Tag.INT)) {
            return Tree.Kind.WHOLE_NUMBER;
        } else if (tag.equals(Tag.FLOAT)) {
            return Tree.Kind.NUMBER;
        } else if (tag.equals(Tag.BOOL)) {
            return Tree.Kind.YES_NO;
        } else if (tag.equals(Tag.NULL)) {
            return Tree.Kind.NOTHING;
        }
        throw foreign(tag.getValue(), event);
    }

    private DataError foreign(String tag, Event event) {
        return place(event).error("", "the tag " + tag + " is not used here; leave it out and write the plain value");
    }

    private void onlyTag(CollectionStartEvent event, Tag allowed) {
        event.getTag()
                .filter(t -> !t.equals("!") && !t.equals(allowed.getValue()))
                .ifPresent(t -> {
                    throw foreign(t, event);
                });
    }

    private Tree sequence(CollectionStartEvent start, int depth) {
        onlyTag(start, Tag.SEQ);
        List<Tree> items = new ArrayList<>();
        Event event = events.next();
        while (event.getEventId() != Event.ID.SequenceEnd) {
            items.add(value(event, depth + 1));
            event = events.next();
        }
        return new Tree.Sequence(items, start.isFlow(), false, collectionPlace(start, event, items));
    }

    private Tree dict(CollectionStartEvent start, int depth) {
        onlyTag(start, Tag.MAP);
        Map<String, Tree.Entry> entries = new LinkedHashMap<>();
        List<Tree> values = new ArrayList<>();
        Event event = events.next();
        while (event.getEventId() != Event.ID.MappingEnd) {
            if (!(event instanceof ScalarEvent)) {
                throw place(event)
                        .error("", "a key must be a plain word, not a list, a map or an alias; write key: value");
            }
            count(event, 1);
            Tree.Scalar key = (Tree.Scalar) scalar((ScalarEvent) event);
            path.addLast(key.text());
            Tree value = value(events.next(), depth + 1);
            Tree.Entry before = entries.putIfAbsent(key.text(), new Tree.Entry(key.place(), value));
            if (before != null) {
                throw key.place()
                        .error(
                                String.join(".", path),
                                "this key already stands in line "
                                        + before.key().line() + "; keep one of the two");
            }
            path.removeLast();
            values.add(value);
            event = events.next();
        }
        return new Tree.Dict(entries, start.isFlow(), false, collectionPlace(start, event, values));
    }

    /** Block collections end, for the parser, where the next thing begins; here they end with their last value. */
    private Place collectionPlace(CollectionStartEvent start, Event end, List<Tree> children) {
        Place first = place(start);
        if (start.isFlow() || children.isEmpty()) {
            return new Place(
                    name,
                    first.line(),
                    first.column(),
                    first.start(),
                    place(end).end());
        }
        return new Place(
                name,
                first.line(),
                first.column(),
                first.start(),
                children.getLast().place().end());
    }

    private Place place(Event event) {
        Optional<Mark> start = event.getStartMark();
        if (start.isEmpty()) {
            return Place.of(name);
        }
        Mark from = start.get();
        return new Place(
                name,
                from.getLine() + 1,
                from.getColumn() + 1,
                offset(from),
                event.getEndMark().map(this::offset).orElse(offset(from)));
    }

    /** Marks count code points; texts are indexed by UTF-16 units. */
    private int offset(Mark mark) {
        return onlyBasic ? mark.getIndex() : text.offsetByCodePoints(0, mark.getIndex());
    }
}
