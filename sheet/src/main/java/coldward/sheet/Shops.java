package coldward.sheet;

import coldward.model.build.Build;
import coldward.model.build.Reading;
import coldward.model.shop.LinkSpec;
import coldward.model.shop.NoticeRules;
import coldward.model.shop.Shop;
import coldward.model.shop.WatchRules;
import coldward.quantity.DataError;
import coldward.quantity.DataErrors;
import coldward.quantity.InputError;
import coldward.sheet.keys.Nearest;
import coldward.sheet.keys.ShopKeys;
import coldward.sheet.keys.Walk;
import coldward.sheet.yaml.Tree;
import coldward.sheet.yaml.YamlFile;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/** Shop files: YAML files that list the printers watched together and how each is reached. */
public final class Shops {

    private static final double REPORTS_UNTIL_UNHEARD = 5;
    private static final double POLLS_UNTIL_UNHEARD = 4;

    private final Path file;
    private final Path folder;
    private final Map<String, String> environment;
    private final List<DataError> problems = new ArrayList<>();

    private Shops(Path file, Map<String, String> environment) {
        this.file = file;
        Path parent = file.getParent();
        this.folder = parent == null ? Path.of("") : parent;
        this.environment = environment;
    }

    /**
     * What a shop file and its sheets say. Secrets are taken from this process's environment and from files.
     *
     * @throws DataError for one finding, {@link DataErrors} for several, those of the sheets included
     */
    public static Shop read(Path file) {
        return read(file, System.getenv());
    }

    /**
     * As {@link #read(Path)}, with an environment of its own.
     *
     * @param environment where secrets are looked up by name
     */
    public static Shop read(Path file, Map<String, String> environment) {
        return new Shops(file, environment).shop();
    }

    /** Everything wrong with a shop file and its sheets; empty if nothing is. */
    public static List<DataError> check(Path file, Map<String, String> environment) {
        Tree tree;
        List<DataError> found = new ArrayList<>();
        try {
            tree = YamlFile.read(file);
        } catch (DataError e) {
            return List.of(e);
        }
        try {
            read(file, environment);
        } catch (DataError | DataErrors e) {
            found.addAll(DataErrors.in(e));
        }
        SchemaCheck.shop(tree, found);
        return found;
    }

    /** The JSON Schema (2020-12) of shop files, as published. */
    public static String schema() {
        return SchemaCheck.resource("shop.schema.json");
    }

    private Shop shop() {
        Tree tree = YamlFile.read(file);
        if (!(tree instanceof Tree.Dict dict)) {
            throw tree.place()
                    .error("", tree.words() + " where a map is wanted; begin with for example shop: brook lane");
        }
        List<Tree.Dict> rows = rows(dict);
        List<Optional<Build>> builds = rows.stream().map(this::build).toList();
        Tree.Dict merged = withLinks(dict, rows, builds);
        Walk walk = Walk.through(ShopKeys.SHOP, merged);
        problems.addAll(walk.problems());
        ShopFacts facts = new ShopFacts(file.toString(), walk, problems);
        List<Shop.Printer> printers = new ArrayList<>();
        Map<String, String> seen = new LinkedHashMap<>();
        for (int i = 0; i < rows.size(); i++) {
            printers.addAll(printers(facts, "printers[" + i + "]", builds.get(i), seen));
        }
        NoticeRules notices = new NoticeReader(facts, folder, environment).rules();
        if (!problems.isEmpty()) {
            throw DataErrors.of(onceEach(problems));
        }
        try {
            return new Shop(facts.wanted("shop"), state(facts), printers, notices);
        } catch (InputError e) {
            throw facts.place("printers").error("printers", String.valueOf(e.getMessage()));
        }
    }

    /** A link that is copied, or used by several machines, is wrong in one place only. */
    private static List<DataError> onceEach(List<DataError> all) {
        Map<String, DataError> once = new LinkedHashMap<>();
        all.forEach(
                e -> once.putIfAbsent(String.valueOf(e.getMessage()).replaceAll("printers\\[\\d+]", "printers[]"), e));
        return List.copyOf(once.values());
    }

    private String state(ShopFacts facts) {
        try {
            return folder.resolve(facts.wanted("state")).normalize().toString();
        } catch (InvalidPathException e) {
            throw facts.place("state").error("state", "is not a folder name; write for example ./state");
        }
    }

    private static List<Tree.Dict> rows(Tree.Dict shop) {
        return shop.get("printers").orElse(shop) instanceof Tree.Sequence list
                ? list.items().stream()
                        .filter(Tree.Dict.class::isInstance)
                        .map(Tree.Dict.class::cast)
                        .toList()
                : List.of();
    }

    private static Optional<String> text(Tree.Dict dict, String key) {
        return dict.get(key).filter(t -> t instanceof Tree.Scalar).map(t -> ((Tree.Scalar) t).text());
    }

    private Optional<Build> build(Tree.Dict row) {
        Optional<String> sheet = text(row, "sheet");
        if (sheet.isEmpty()) {
            return Optional.empty();
        }
        try {
            return Optional.of(Sheets.read(folder.resolve(sheet.get())));
        } catch (DataError | DataErrors e) {
            List<DataError> found = DataErrors.in(e);
            if (found.size() == 1
                    && found.getFirst().line() == 0
                    && found.getFirst().key().isEmpty()) {
                // the file as a whole: the place to mend is this shop file
                Tree.Entry entry = row.entries().get("sheet");
                if (entry != null) {
                    problems.add(entry.key()
                            .error("sheet", String.valueOf(found.getFirst().getMessage())));
                    return Optional.empty();
                }
            }
            problems.addAll(found);
            return Optional.empty();
        } catch (InvalidPathException e) {
            Tree.Entry entry = row.entries().get("sheet");
            if (entry != null) {
                problems.add(entry.key().error("sheet", "is not a file name; write for example heron.yaml"));
            }
            return Optional.empty();
        }
    }

    // ---- like

    private Tree.Dict withLinks(Tree.Dict shop, List<Tree.Dict> rows, List<Optional<Build>> builds) {
        Map<String, Tree.Dict> byName = new LinkedHashMap<>();
        for (int i = 0; i < rows.size(); i++) {
            for (String name : names(rows.get(i), builds.get(i))) {
                byName.putIfAbsent(name, rows.get(i));
            }
        }
        Tree.Entry printers = shop.entries().get("printers");
        if (printers == null || !(printers.value() instanceof Tree.Sequence list)) {
            return shop;
        }
        List<Tree> merged = list.items().stream()
                .map(item -> item instanceof Tree.Dict row ? withLink(row, byName) : item)
                .toList();
        return shop.with(
                "printers",
                new Tree.Entry(printers.key(), new Tree.Sequence(merged, list.flow(), list.aliased(), list.place())));
    }

    private static List<String> names(Tree.Dict row, Optional<Build> build) {
        if (row.get("names").orElse(row) instanceof Tree.Sequence list) {
            return list.items().stream()
                    .filter(t -> t instanceof Tree.Scalar)
                    .map(t -> ((Tree.Scalar) t).text())
                    .toList();
        }
        // where the sheet could not be read its file's name is the best guess at the printer's
        return List.of(text(row, "name")
                .or(() -> build.map(Build::printer))
                .or(() -> text(row, "sheet").map(s -> s.replaceAll(".*/|\\.ya?ml$", "")))
                .orElse(""));
    }

    private Tree.Dict withLink(Tree.Dict row, Map<String, Tree.Dict> byName) {
        Tree.Entry link = row.entries().get("link");
        if (link == null || !(link.value() instanceof Tree.Dict own)) {
            return row;
        }
        List<Tree.Dict> seen = new ArrayList<>(List.of(row));
        Tree.Dict merged = own;
        while (merged.get("like").orElse(merged) instanceof Tree.Scalar like) {
            Tree.Dict other = byName.get(like.text());
            if (other == null) {
                problems.add(like.place()
                        .error(
                                "link.like",
                                "there is no printer " + like.text() + " in this shop; "
                                        + Nearest.hint(like.text(), byName.keySet())));
                break;
            }
            if (seen.contains(other)) {
                problems.add(like.place()
                        .error(
                                "link.like",
                                "the links are like one another in a circle through " + like.text()
                                        + "; write one of them out"));
                break;
            }
            seen.add(other);
            merged = other.get("link").orElse(like) instanceof Tree.Dict theirs
                    ? overlaid(theirs, merged.without("like"), 2)
                    : merged.without("like");
        }
        return row.with("link", new Tree.Entry(link.key(), merged.without("like")));
    }

    /** One map over another, down to single reads, acts, proofs and headers, which replace one another whole. */
    private static Tree.Dict overlaid(Tree.Dict base, Tree.Dict own, int levels) {
        Map<String, Tree.Entry> merged = new LinkedHashMap<>(base.entries());
        own.entries().forEach((key, entry) -> {
            Tree.Entry before = merged.get(key);
            Tree.Entry after = entry;
            if (levels > 1
                    && before != null
                    && before.value() instanceof Tree.Dict theirs
                    && entry.value() instanceof Tree.Dict ours) {
                after = new Tree.Entry(entry.key(), overlaid(theirs, ours, levels - 1));
            }
            merged.put(key, after);
        });
        return new Tree.Dict(merged, own.flow(), own.aliased(), own.place());
    }

    // ---- printers

    private List<Shop.Printer> printers(ShopFacts facts, String at, Optional<Build> build, Map<String, String> seen) {
        if (!facts.isGiven(at + ".link") || build.isEmpty()) {
            return List.of();
        }
        if (facts.isGiven(at + ".name") && facts.isGiven(at + ".names")) {
            facts.problem(at + ".names", "is given as well as name; keep one of the two");
        }
        List<String> names = facts.tree(at + ".names").orElse(null) instanceof Tree.Sequence list
                ? list.items().stream()
                        .map(t -> t instanceof Tree.Scalar s ? s.text() : "")
                        .toList()
                : List.of(facts.find(at + ".name").orElse(build.get().printer()));
        LinkReader reader = new LinkReader(facts, at + ".link", folder, environment);
        reader.checkComplete(build.get());
        if (names.size() > 1 && !reader.usesName()) {
            facts.problem(
                    at + ".names",
                    "lists several machines but the link is the same for all; put {name} where they differ, for example base: \"http://localhost:7070/{name}\"");
        }
        String sheet = folder.resolve(facts.wanted(at + ".sheet")).toString();
        List<Shop.Printer> printers = new ArrayList<>();
        for (String name : names) {
            String before = seen.putIfAbsent(name, at);
            if (before != null) {
                facts.problem(
                        facts.isGiven(at + ".names")
                                ? at + ".names"
                                : facts.isGiven(at + ".name") ? at + ".name" : at + ".sheet",
                        "printer %s is listed twice; give each its own name, for example name: %s-2"
                                .formatted(name, name));
                continue;
            }
            try {
                LinkSpec.Http link = reader.http(name);
                printers.add(new Shop.Printer(
                        name, sheet, build.get(), link, rules(facts, at + ".rules", build.get(), link)));
            } catch (InputError e) {
                facts.problem(at + ".link", String.valueOf(e.getMessage()));
            }
        }
        return printers;
    }

    private static WatchRules rules(ShopFacts facts, String at, Build build, LinkSpec.Http link) {
        double reports = build.reading() instanceof Reading.Tachometer t ? t.reportInterval() : 0;
        double unheard = Math.max(REPORTS_UNTIL_UNHEARD * reports, POLLS_UNTIL_UNHEARD * link.every());
        Optional<Double> responds = facts.quantity(at + ".unheard_responds_after");
        return new WatchRules(
                facts.quantity(at + ".unheard_after").orElse(unheard),
                responds.isPresent() ? OptionalDouble.of(responds.get()) : OptionalDouble.empty(),
                facts.wantedQuantity(at + ".contradicted_rise"),
                facts.wanted(at + ".contradicted_responds").matches("(?i)yes|true"),
                facts.wantedQuantity(at + ".drill_every"));
    }
}
