package coldward.sheet;

import coldward.model.build.Action;
import coldward.model.build.Material;
import coldward.model.build.Origin;
import coldward.model.build.Plastic;
import coldward.model.build.Plastics;
import coldward.quantity.DataError;
import coldward.quantity.Dimension;
import coldward.quantity.InputError;
import coldward.quantity.OwnBug;
import coldward.quantity.Units;
import coldward.sheet.keys.ClassTable;
import coldward.sheet.keys.GuardKeys;
import coldward.sheet.keys.Index;
import coldward.sheet.keys.Key;
import coldward.sheet.keys.Metals;
import coldward.sheet.keys.Nearest;
import coldward.sheet.keys.Shape;
import coldward.sheet.keys.SheetKeys;
import coldward.sheet.keys.Walk;
import coldward.sheet.keys.WiringClasses;
import coldward.sheet.yaml.Place;
import coldward.sheet.yaml.Tree;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

/**
 * What a sheet says once classes and defaults are filled in: every value as text with its origin, by dotted path. The
 * order of authority is given, inherited, class, default.
 */
final class Facts {

    private final String file;
    private final Walk walk;
    private final List<DataError> problems = new ArrayList<>();
    private final Map<String, Origin> layers = new LinkedHashMap<>();
    private final Map<ClassTable.Kind, ClassTable.Entry> classes = new EnumMap<>(ClassTable.Kind.class);

    Facts(String file, Walk walk) {
        this.file = file;
        this.walk = walk;
        problems.addAll(walk.problems());
        for (ClassTable.Kind kind : ClassTable.Kind.values()) {
            layClass(kind);
        }
        layPlastic();
        layBore();
        layCooldown();
        refuseBothWays();
        refuseForeignCounterKeys();
    }

    List<DataError> problems() {
        return problems;
    }

    /** The classes named or assumed, by kind. */
    Map<ClassTable.Kind, ClassTable.Entry> classes() {
        return classes;
    }

    /** Notes something wrong at a path's place, or that of the nearest map around it. */
    void problem(String path, String text) {
        problems.add(place(path).error(path, text));
    }

    /** Where a path stands, or the nearest map around it, or the file. */
    Place place(String path) {
        return walk.place(path).orElseGet(() -> Place.of(file));
    }

    boolean isGiven(String path) {
        return walk.cells().containsKey(path) || walk.groups().containsKey(path);
    }

    int rows(String path) {
        int n = 0;
        while (walk.groups().containsKey(path + "[" + n + "]")) {
            n++;
        }
        return n;
    }

    // ---- layers

    private void layClass(ClassTable.Kind kind) {
        String path = kind.group() + ".class";
        Walk.Cell given = walk.cells().get(path);
        Optional<String> name = given != null ? Optional.of(given.text()) : assumed(kind, path);
        name.flatMap(n -> ClassTable.named(kind, n)).ifPresent(entry -> {
            classes.put(kind, entry);
            String called = entry.name() + (given == null ? ", assumed: " : ": ");
            Map<String, String> values = kind == ClassTable.Kind.FAN ? scaled(entry) : entry.values();
            values.forEach((p, text) -> {
                // a plain default is surer than a class that nobody named
                if (given != null || !hasDefault(p)) {
                    layers.put(
                            p.endsWith(".material") ? p + ".name" : p,
                            new Origin(Origin.Kind.CLASS, called + entry.source(p), text));
                }
            });
        });
    }

    private static boolean hasDefault(String path) {
        return Index.SHEET.at(path).flatMap(Key::fallback).isPresent();
    }

    private Optional<String> assumed(ClassTable.Kind kind, String path) {
        Optional<String> fallback = Index.SHEET.at(path).flatMap(Key::fallback).map(Key.Fallback::text);
        if (fallback.isEmpty() || !SheetKeys.ALL_OR_CLASS.contains(kind.group())) {
            return fallback;
        }
        // a half described sink is not filled up with another's dimensions unless its class is named
        boolean described = ClassTable.named(kind, fallback.get()).stream()
                .flatMap(e -> e.values().keySet().stream())
                .anyMatch(p -> !p.endsWith(".material") && walk.cells().containsKey(p));
        return described ? Optional.empty() : fallback;
    }

    /** Fan laws (AMCA 210, ISO 5801) at one size and density: flow as the speed, pressure as its square. */
    private Map<String, String> scaled(ClassTable.Entry entry) {
        Map<String, String> values = new LinkedHashMap<>(entry.values());
        String reference = String.valueOf(values.remove("fan.rated_speed"));
        Walk.Cell speed = walk.cells().get("fan.rated_speed");
        if (speed == null) {
            return values;
        }
        double ratio =
                Units.parse(Dimension.SPEED_OF_TURN, speed.text()) / Units.parse(Dimension.SPEED_OF_TURN, reference);
        if (!(ratio >= 0.25 && ratio <= 2.5)) {
            problem(
                    "fan.rated_speed",
                    "%s is far from the %s at which the class %s is known; give free_flow and shutoff_pressure instead of the class"
                            .formatted(speed.text(), reference, entry.name()));
            return values;
        }
        values.computeIfPresent(
                "fan.free_flow",
                (k, text) -> Units.format(Dimension.AIR_FLOW, Units.parse(Dimension.AIR_FLOW, text) * ratio));
        values.computeIfPresent(
                "fan.shutoff_pressure",
                (k, text) -> Units.format(Dimension.PRESSURE, Units.parse(Dimension.PRESSURE, text) * ratio * ratio));
        return values;
    }

    private void layPlastic() {
        Walk.Cell name = walk.cells().get("plastic.name");
        if (name == null) {
            return;
        }
        Optional<Plastic> known = Plastics.named(name.text());
        if (known.isEmpty()) {
            if (!isGiven("plastic.softens_at")) {
                String near = Nearest.to(name.text(), Plastics.all().keySet())
                        .map(n -> "did you mean " + n + "? Otherwise ")
                        .orElse("");
                problem(
                        "plastic.softens_at",
                        "is missing: %s is not in the table of plastics (%s); %sit must state at which temperature it softens, for example plastic: {name: %s, softens_at: 70 degC}"
                                .formatted(
                                        name.text(),
                                        String.join(", ", Plastics.all().keySet()),
                                        near,
                                        name.text()));
            }
            return;
        }
        Plastic p = known.get();
        String detail = p.name() + ", table of plastics";
        layer("plastic.softens_at", Dimension.TEMPERATURE, p.softensAt(), detail);
        layer("plastic.conductivity", Dimension.CONDUCTIVITY, p.conductivity(), detail);
        layer("plastic.density", Dimension.DENSITY, p.density(), detail);
        layer("plastic.specific_heat", Dimension.SPECIFIC_HEAT, p.specificHeat(), detail);
        layer("plastic.feeds_above", Dimension.TEMPERATURE, p.feedsAbove(), detail);
        p.meltSpecificHeat().ifPresent(c -> layer("plastic.melt_specific_heat", Dimension.SPECIFIC_HEAT, c, detail));
    }

    private void layer(String path, Dimension dimension, double base, String detail) {
        layers.put(path, new Origin(Origin.Kind.DEFAULT, detail, Units.format(dimension, base)));
    }

    private void layBore() {
        if (isGiven("neck.bore")) {
            return;
        }
        find("filament.diameter")
                .ifPresent(d -> layer(
                        "neck.bore",
                        Dimension.LENGTH,
                        Units.parse(Dimension.LENGTH, d.text()) + 0.25e-3,
                        "filament.diameter + 0.25 mm; " + Key.COMMON_PRACTICE));
    }

    /** Lumped cool-down with the heater off: G = C ln((from - air)/(to - air)) / time. */
    private void layCooldown() {
        String path = "hot_side.block_cooldown";
        if (!isGiven(path + ".from") || !isGiven(path + ".to") || !isGiven(path + ".time")) {
            return;
        }
        double air = quantity(isGiven(path + ".air") ? path + ".air" : "surroundings.air");
        double from = quantity(path + ".from");
        double to = quantity(path + ".to");
        if (!(from > to && to > air)) {
            problem(
                    path,
                    "must cool towards the air: from above to above the air, for example {from: 200 degC, to: 100 degC, time: 150 s}");
            return;
        }
        double conductance = quantity("hot_side.block_heat_capacity")
                * Math.log((from - air) / (to - air))
                / quantity(path + ".time");
        layers.put(
                "hot_side.block_loss",
                new Origin(Origin.Kind.GIVEN, "from block_cooldown", Units.format(Dimension.CONDUCTANCE, conductance)));
    }

    private void refuseBothWays() {
        for (SheetKeys.Alternative pair : SheetKeys.ALTERNATIVES) {
            if (isGiven(pair.instead())) {
                pair.of().stream()
                        .filter(this::isGiven)
                        .forEach(other ->
                                problem(other, "is given as well as " + pair.instead() + "; keep one of the two"));
            }
        }
    }

    private void refuseForeignCounterKeys() {
        String counter = find("reading.counter").map(Origin::text).orElse("");
        GuardKeys.COUNTER_KEYS.forEach((owner, keys) -> keys.stream()
                .filter(k -> !owner.equals(counter) && isGiven(k))
                .forEach(k -> problem(
                        k,
                        "belongs to counter: %s, but the counter is %s; take it out or change the counter"
                                .formatted(owner, counter))));
    }

    // ---- what is wanted

    /** Notes everything that is wanted and has no value, and lists the origins of what has. */
    Map<String, Origin> settle() {
        Map<String, Origin> origins = new LinkedHashMap<>();
        Map<String, List<String>> missing = new LinkedHashMap<>();
        boolean wired = isGiven("wiring");
        Index.SHEET.all().forEach((general, key) -> {
            for (String path : !wired && general.startsWith("wiring.") ? List.<String>of() : written(general)) {
                if (!(key.shape() instanceof Shape.Group) && !(key.shape() instanceof Shape.Rows) && applies(path)) {
                    Optional<Origin> found = find(path);
                    if (found.isPresent()) {
                        origins.put(path, found.get());
                    } else if (key.need() == Key.Need.WANTED && !isWrongHere(path)) {
                        missing.computeIfAbsent(parent(path), p -> new ArrayList<>())
                                .add(key.name());
                    } else if (isAbsentMetal(path)) {
                        missing.computeIfAbsent(parent(parent(path)), p -> new ArrayList<>())
                                .add("material");
                    }
                }
            }
        });
        missing.forEach((group, names) -> {
            String path = group.endsWith(".material") ? group : group + "." + names.getFirst();
            if (walk.groups().containsKey(group)
                    || Index.SHEET.at(group).map(Key::need).orElse(Key.Need.WANTED) != Key.Need.REQUIRED) {
                problem(path, lacks(group, names));
            }
        });
        return compact(origins);
    }

    /** The name of a metal is required of the map that it stands in; here that map itself is wanted and absent. */
    private boolean isAbsentMetal(String path) {
        return path.endsWith(".material.name")
                && !isGiven(parent(path))
                && Index.SHEET
                        .at(parent(path))
                        .filter(k -> k.need() == Key.Need.WANTED)
                        .isPresent();
    }

    private String lacks(String group, List<String> names) {
        String example = names.stream()
                .map(n -> n + ": "
                        + Index.SHEET.at(group + "." + n).map(Key::example).orElse("..."))
                .collect(Collectors.joining(", "));
        String give = "%s lacks %s; give %s, for example {%s}"
                .formatted(group, String.join(", ", names), names.size() == 1 ? "it" : "them", example);
        Optional<String> wired = WiringClasses.kindOf(group)
                .map(k -> give + ", or name a class: "
                        + String.join("; ", WiringClasses.of(k).keySet()));
        if (wired.isPresent()) {
            return wired.get();
        }
        return ClassTable.kindOf(group)
                .map(k -> give + ", or name a class: " + String.join(", ", ClassTable.names(k)))
                .orElse(give);
    }

    /** A value that is there but wrong has been told already. */
    private boolean isWrongHere(String path) {
        return problems.stream().anyMatch(p -> p.key().equals(path) || path.startsWith(p.key() + "."));
    }

    private static String parent(String path) {
        int dot = path.lastIndexOf('.');
        return dot < 0 ? "" : path.substring(0, dot);
    }

    /** A known metal without values of its own is one word. */
    private static Map<String, Origin> compact(Map<String, Origin> origins) {
        Map<String, Origin> compact = new LinkedHashMap<>();
        origins.forEach((path, origin) -> {
            if (path.endsWith(".material.name")
                    && !origins.containsKey(parent(path) + ".conductivity")
                    && !origins.containsKey(parent(path) + ".density")
                    && !origins.containsKey(parent(path) + ".specific_heat")) {
                compact.put(parent(path), origin);
            } else {
                compact.put(path, origin);
            }
        });
        return compact;
    }

    /** The paths of this sheet that a path with open list positions stands for. */
    private List<String> written(String general) {
        int open = general.indexOf("[]");
        if (open < 0) {
            return List.of(general);
        }
        List<String> paths = new ArrayList<>();
        for (int i = 0; i < rows(general.substring(0, open)); i++) {
            paths.addAll(written(general.substring(0, open) + "[" + i + general.substring(open + 1)));
        }
        return paths;
    }

    /** True if a key means something on this sheet, given what else stands there. */
    boolean applies(String path) {
        if (path.equals("based_on")
                || path.equals("bore")
                || path.endsWith(".class")
                || path.startsWith("hot_side.block_cooldown.")) {
            return false;
        }
        for (SheetKeys.Alternative pair : SheetKeys.ALTERNATIVES) {
            boolean computed =
                    layers.containsKey("hot_side.block_loss") && pair.of().contains("hot_side.block_loss");
            if (isGiven(pair.instead())
                    && !computed
                    && pair.of().stream().anyMatch(o -> path.equals(o) || path.startsWith(o + "."))) {
                return false;
            }
        }
        if (path.equals("fan.curve_with_duct")) {
            return isGiven("fan.curve") || isGiven(path);
        }
        if (path.startsWith("reading.")) {
            String counter = find("reading.counter").map(Origin::text).orElse("");
            boolean foreign = GuardKeys.COUNTER_KEYS.entrySet().stream()
                    .anyMatch(e -> e.getValue().contains(path) && !e.getKey().equals(counter));
            return !foreign && (!counter.equals("none") || path.equals("reading.counter"));
        }
        for (String group = parent(path); !group.isEmpty(); group = parent(group)) {
            Optional<Key> key = Index.SHEET.at(group);
            if (key.isPresent() && key.get().need() == Key.Need.OPTIONAL && !isPresent(group)) {
                return false;
            }
        }
        return true;
    }

    private boolean isPresent(String group) {
        return isGiven(group) || layers.keySet().stream().anyMatch(p -> p.startsWith(group + "."));
    }

    // ---- values

    /** The value of a path with its origin, if there is one. */
    Optional<Origin> find(String path) {
        Walk.Cell cell = walk.cells().get(path);
        if (cell != null) {
            boolean own = cell.key().file().equals(file);
            boolean ofClass = cell.key().file().startsWith(WiringClasses.FROM_CLASS);
            String text = cell.tree() instanceof Tree.Sequence list ? listed(list) : cell.text();
            if (ofClass) {
                return Optional.of(new Origin(
                        Origin.Kind.CLASS, cell.key().file().substring(WiringClasses.FROM_CLASS.length()), text));
            }
            return Optional.of(new Origin(
                    own ? Origin.Kind.GIVEN : Origin.Kind.INHERITED,
                    own ? "" : cell.key().file(),
                    text));
        }
        Origin layer = layers.get(path);
        if (layer != null) {
            return Optional.of(layer);
        }
        String keyed = path.endsWith(".material.name") ? parent(path) : path;
        return Index.SHEET
                .at(keyed)
                .flatMap(Key::fallback)
                .filter(f -> !f.text().isEmpty())
                .map(f -> new Origin(Origin.Kind.DEFAULT, f.source(), f.text()));
    }

    private static String listed(Tree.Sequence list) {
        return list.items().stream()
                .map(t -> t instanceof Tree.Scalar s ? s.text() : "")
                .collect(Collectors.joining(", ", "[", "]"));
    }

    /** The text of a path that must have one. */
    String text(String path) {
        return find(path)
                .map(Origin::text)
                .orElseThrow(() -> new OwnBug("no value for " + path + " although it was checked"));
    }

    double quantity(String path) {
        Key key = Index.SHEET.at(path).orElseThrow(() -> new OwnBug("no key " + path));
        if (key.shape() instanceof Shape.Quantity q) {
            return Units.parse(q.dimension(), path, text(path));
        }
        if (key.shape() instanceof Shape.Coefficient) {
            return Double.parseDouble(text(path));
        }
        throw new OwnBug(path + " is no number");
    }

    OptionalDouble ifThere(String path) {
        return find(path).isPresent() && applies(path) ? OptionalDouble.of(quantity(path)) : OptionalDouble.empty();
    }

    int count(String path) {
        return Integer.parseInt(text(path));
    }

    boolean yes(String path) {
        return text(path).equalsIgnoreCase("yes") || text(path).equalsIgnoreCase("true");
    }

    List<Action> actions() {
        String list = text("response.actions");
        return Arrays.stream(list.substring(1, list.length() - 1).split(",\\s*"))
                .map(w -> Action.of(w.strip()).orElseThrow(() -> new OwnBug("unknown action " + w)))
                .toList();
    }

    /** The metal at a path such as {@code neck.material}. */
    Material material(String path) {
        String name = text(path + ".name");
        Optional<Material> known = Metals.named(name);
        boolean complete =
                List.of("conductivity", "density", "specific_heat").stream().allMatch(k -> isGiven(path + "." + k));
        if (known.isEmpty() && !complete) {
            throw new InputError(
                    path,
                    "%s is not a known metal (%s); write for example titanium, or all of {name: %s, conductivity: 11 W/(m K), density: 8200 kg/m^3, specific_heat: 430 J/(kg K)}"
                            .formatted(name, Nearest.hint(name, Metals.names()), name));
        }
        return new Material(
                name,
                ifThere(path + ".conductivity")
                        .orElseGet(() -> known.orElseThrow().conductivity()),
                ifThere(path + ".density").orElseGet(() -> known.orElseThrow().density()),
                ifThere(path + ".specific_heat")
                        .orElseGet(() -> known.orElseThrow().specificHeat()));
    }

    boolean hasMaterial(String path) {
        return isPresent(path) && find(path + ".name").isPresent();
    }

    /** Everything that this sheet or one it is based on gives, in the order of the catalogue. */
    Map<String, Origin> given() {
        Map<String, Origin> given = new LinkedHashMap<>();
        Index.SHEET.all().keySet().forEach(general -> {
            for (String path : written(general)) {
                if (walk.cells().containsKey(path)) {
                    find(path).filter(o -> o.kind() != Origin.Kind.CLASS).ifPresent(o -> given.put(path, o));
                }
            }
        });
        return compact(given);
    }
}
