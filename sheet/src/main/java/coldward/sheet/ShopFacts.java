package coldward.sheet;

import coldward.quantity.DataError;
import coldward.quantity.OwnBug;
import coldward.quantity.Units;
import coldward.sheet.keys.Key;
import coldward.sheet.keys.Shape;
import coldward.sheet.keys.ShopKeys;
import coldward.sheet.keys.Walk;
import coldward.sheet.yaml.Place;
import coldward.sheet.yaml.Tree;
import java.util.List;
import java.util.Optional;

/** The values of a shop file by dotted path, with its defaults, and the findings about it. */
final class ShopFacts {

    private final Walk walk;
    private final List<DataError> problems;
    private final String file;

    ShopFacts(String file, Walk walk, List<DataError> problems) {
        this.file = file;
        this.walk = walk;
        this.problems = problems;
    }

    boolean isGiven(String path) {
        return walk.cells().containsKey(path) || walk.groups().containsKey(path);
    }

    /** The value as written, if it is there and of the right kind. */
    Optional<Tree> tree(String path) {
        return Optional.ofNullable(walk.cells().get(path)).map(Walk.Cell::tree);
    }

    /** The text given, or the default. */
    Optional<String> find(String path) {
        Walk.Cell cell = walk.cells().get(path);
        return cell != null
                ? Optional.of(cell.text())
                : ShopKeys.INDEX.at(path).flatMap(Key::fallback).map(Key.Fallback::text);
    }

    /** The text of a key that must be there; where it is not, that is noted and the example stands in. */
    String wanted(String path) {
        return find(path).orElseGet(() -> {
            Key key = ShopKeys.INDEX.at(path).orElseThrow(() -> new OwnBug("no key " + path));
            if (problems.stream().noneMatch(p -> p.key().equals(path))) {
                problem(path, "is missing; write for example %s: %s".formatted(key.name(), key.example()));
            }
            return key.example();
        });
    }

    Optional<Double> quantity(String path) {
        Key key = ShopKeys.INDEX.at(path).orElseThrow(() -> new OwnBug("no key " + path));
        if (key.shape() instanceof Shape.Quantity q) {
            return find(path).map(text -> Units.parse(q.dimension(), path, text));
        }
        throw new OwnBug(path + " is no quantity");
    }

    double wantedQuantity(String path) {
        wanted(path);
        return quantity(path).orElse(1.0);
    }

    int rows(String path) {
        int n = 0;
        while (walk.groups().containsKey(path + "[" + n + "]")) {
            n++;
        }
        return n;
    }

    List<String> namesUnder(String path) {
        String prefix = path + ".";
        return walk.groups().keySet().stream()
                .filter(p -> p.startsWith(prefix))
                .map(p -> p.substring(prefix.length()))
                .toList();
    }

    void problem(String path, String text) {
        problems.add(place(path).error(path, text));
    }

    Place place(String path) {
        return walk.place(path).orElseGet(() -> Place.of(file));
    }
}
