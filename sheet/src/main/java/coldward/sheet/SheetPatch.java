package coldward.sheet;

import coldward.quantity.CannotRun;
import coldward.quantity.DataError;
import coldward.quantity.InputError;
import coldward.sheet.keys.Index;
import coldward.sheet.keys.Key;
import coldward.sheet.keys.Shape;
import coldward.sheet.yaml.Place;
import coldward.sheet.yaml.Tree;
import coldward.sheet.yaml.YamlFile;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFileAttributeView;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;

/**
 * Changes single values of a sheet by patching its text where they stand, so that comments, order and layout survive.
 * The patched text is parsed again before it is used: only the one value may have changed.
 */
public final class SheetPatch {

    private SheetPatch() {}

    /**
     * The text with one value set.
     *
     * @param text a sheet
     * @param key dotted, for example {@code sink.measured.on}; maps that are missing are added
     * @param yaml the value as YAML on one line, for example {@code 0.34 W/K} or {@code [hold, heater-off]}
     * @throws InputError if the key leads into a list, an alias or a value that is no map, or the value is not YAML
     * @throws coldward.quantity.DataError if the text is not YAML
     */
    public static String set(String text, String key, String yaml) {
        if (yaml.contains("\n") || yaml.contains("\r") || yaml.isBlank()) {
            throw new InputError(key, "a value to be set must be one line of YAML, for example 0.34 W/K");
        }
        Tree value = parsed(key, yaml.strip(), "the value is not YAML; write for example 0.34 W/K");
        Tree before = YamlFile.parse("sheet", text);
        if (!(before instanceof Tree.Dict root)) {
            throw new InputError(key, "the text is no map, so no key can be set in it");
        }
        String patched = new Patch(text, key, yaml.strip()).in(root);
        Tree after = parsed(key, patched, "the value does not fit in where it is to stand; leave comments out of it");
        if (!(after instanceof Tree.Dict now)
                || !Objects.equals(at(now, key).map(Tree::content), Optional.of(Tree.content(value)))
                || !changedNothingElse(root, now, key)) {
            throw new InputError(key, "the value could not be set without changing something else; set it by hand");
        }
        return patched;
    }

    private static Tree parsed(String key, String text, String otherwise) {
        try {
            return YamlFile.parse("value", text);
        } catch (DataError e) {
            throw new InputError(key, otherwise);
        }
    }

    /**
     * Sets values in a file: all of them or none. The new text is written beside the file, forced to the disk and moved
     * over it in one step.
     *
     * @param values YAML by dotted key, set in the map's order
     * @throws InputError as {@link #set} does
     * @throws CannotRun if the file cannot be written; it is then as it was
     */
    public static void apply(Path file, Map<String, String> values) {
        String text = YamlFile.text(file);
        for (Map.Entry<String, String> value : values.entrySet()) {
            text = set(text, value.getKey(), value.getValue());
        }
        replace(file, text);
    }

    /** Writes a whole text so that a reader finds either the old one or the new one. */
    static void replace(Path file, String text) {
        Path target = file;
        Path written = null;
        try {
            target = Files.exists(file) ? file.toRealPath() : file.toAbsolutePath();
            Path folder = Objects.requireNonNull(target.getParent());
            written = Files.createTempFile(folder, "." + target.getFileName(), ".new");
            try (FileChannel channel = FileChannel.open(written, StandardOpenOption.WRITE)) {
                ByteBuffer bytes = ByteBuffer.wrap(text.getBytes(StandardCharsets.UTF_8));
                while (bytes.hasRemaining()) {
                    channel.write(bytes);
                }
                channel.force(true);
            }
            keepPermissions(target, written);
            Files.move(written, target, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
            try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
                channel.force(true);
            }
        } catch (IOException e) {
            remove(written);
            throw new CannotRun(
                    "%s could not be written (%s) and is as it was; check that its folder may be written and has room"
                            .formatted(target, e.getMessage()),
                    e);
        }
    }

    private static void keepPermissions(Path from, Path to) throws IOException {
        PosixFileAttributeView view = Files.getFileAttributeView(to, PosixFileAttributeView.class);
        if (view != null && Files.exists(from)) {
            view.setPermissions(Files.getPosixFilePermissions(from));
        }
    }

    private static void remove(@org.jspecify.annotations.Nullable Path file) {
        if (file != null) {
            try {
                Files.deleteIfExists(file);
            } catch (IOException e) {
                throw new CannotRun(file + " was left behind and can be deleted", e);
            }
        }
    }

    private static Optional<Tree> at(Tree.Dict root, String key) {
        Tree at = root;
        for (String name : key.split("\\.", -1)) {
            Optional<Tree> next = at instanceof Tree.Dict dict ? dict.get(name) : Optional.empty();
            if (next.isEmpty()) {
                return Optional.empty();
            }
            at = next.get();
        }
        return Optional.of(at);
    }

    /** Maps on the way may have come to be, by themselves or out of the word that stood for them. */
    private static boolean changedNothingElse(Tree.Dict before, Tree.Dict after, String key) {
        int dot = key.indexOf('.');
        String first = dot < 0 ? key : key.substring(0, dot);
        if (!Tree.content(before.without(first)).equals(Tree.content(after.without(first)))) {
            return false;
        }
        if (dot < 0) {
            return true;
        }
        Optional<Tree> was = before.get(first);
        if (!(after.get(first).orElse(null) instanceof Tree.Dict now)) {
            return false;
        }
        if (was.isEmpty()) {
            return now.entries().size() == 1;
        }
        return switch (was.get()) {
            case Tree.Dict dict -> changedNothingElse(dict, now, key.substring(dot + 1));
            case Tree.Scalar word
            when word.kind() == Tree.Kind.NOTHING -> now.entries().size() == 1;
            case Tree.Scalar word ->
                now.entries().size() == 2
                        && now.entries().values().stream()
                                .anyMatch(e -> Tree.content(e.value()).equals(Tree.content(word)));
            case Tree.Sequence list -> false;
        };
    }

    /** One change to one text. */
    private record Patch(String text, String key, String yaml) {

        String in(Tree.Dict root) {
            String[] names = key.split("\\.", -1);
            Tree.Dict at = root;
            for (int i = 0; i < names.length; i++) {
                Tree.Entry entry = at.entries().get(names[i]);
                String rest = nested(names, i + 1);
                if (entry == null) {
                    return added(at, names[i], rest);
                }
                if (i == names.length - 1) {
                    return replaced(entry, yaml);
                }
                if (entry.value().aliased()) {
                    throw new InputError(
                            key, names[i] + " is an alias here; write the map out before setting values in it");
                }
                switch (entry.value()) {
                    case Tree.Dict inner -> at = inner;
                    case Tree.Scalar word -> {
                        return replaced(entry, fromWord(names, i, word, rest));
                    }
                    case Tree.Sequence list ->
                        throw new InputError(key, names[i] + " is a list here; set values in it by hand");
                }
            }
            throw new InputError(key, "the key is empty; name one, for example sink.measured.on");
        }

        /** The value with the maps it still needs around it. */
        private String nested(String[] names, int from) {
            StringBuilder out = new StringBuilder();
            for (int i = from; i < names.length; i++) {
                out.append('{').append(names[i]).append(": ");
            }
            return out.append(yaml)
                    .append("}".repeat(Math.max(names.length - from, 0)))
                    .toString();
        }

        /** A bare class or name becomes the map it stands for. */
        private String fromWord(String[] names, int i, Tree.Scalar word, String rest) {
            if (word.kind() == Tree.Kind.NOTHING) {
                return rest;
            }
            String path = String.join(".", List.of(names).subList(0, i + 1));
            if (Index.SHEET.at(path).map(Key::shape).orElse(null) instanceof Shape.Group group
                    && group.shorthand().isPresent()
                    && group.shorthandWords().isEmpty()) {
                String written =
                        text.substring(word.place().start(), word.place().end());
                return "{" + group.shorthand().get() + ": " + written + ", " + rest.substring(1);
            }
            throw new InputError(key, path + " is " + word.words() + " here, not a map; set it by hand");
        }

        private String replaced(Tree.Entry entry, String with) {
            Place old = entry.value().place();
            boolean block = switch (entry.value()) {
                case Tree.Dict d -> !d.flow();
                case Tree.Sequence list -> !list.flow();
                case Tree.Scalar word -> false;
            };
            boolean ownLines = block || old.start() == old.end();
            if (!ownLines) {
                return text.substring(0, old.start()) + with + text.substring(old.end());
            }
            int colon = text.indexOf(':', entry.key().end());
            String behind = text.substring(Math.max(old.end(), colon + 1));
            return text.substring(0, colon) + ": " + with + behind;
        }

        private String added(Tree.Dict at, String name, String value) {
            String entry = name + ": " + value;
            if (at.flow()) {
                int close = at.place().end() - 1;
                if (at.entries().isEmpty()) {
                    return text.substring(0, close) + entry + text.substring(close);
                }
                int end = endOfLast(at);
                return text.substring(0, end) + ", " + entry + text.substring(end);
            }
            String newline = text.contains("\r\n") ? "\r\n" : "\n";
            Place firstKey = at.entries().values().iterator().next().key();
            int end = text.indexOf('\n', at.place().end());
            String head = end < 0 ? text : text.substring(0, end + 1);
            String gap = head.endsWith("\n") ? "" : newline;
            String tail = end < 0 ? "" : text.substring(end + 1);
            return head + gap + " ".repeat(firstKey.column() - 1) + entry + newline + tail;
        }

        private static int endOfLast(Tree.Dict at) {
            int end = 0;
            for (Tree.Entry e : at.entries().values()) {
                end = Math.max(end, Math.max(e.key().end(), e.value().place().end()));
            }
            return end;
        }
    }
}
