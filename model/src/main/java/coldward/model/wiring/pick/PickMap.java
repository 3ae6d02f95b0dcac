package coldward.model.wiring.pick;

import coldward.model.wiring.DiodeClass;
import coldward.model.wiring.analysis.FindingCode;
import java.util.List;
import java.util.Optional;

/**
 * Every pair of pull-up and diode, judged over all corners.
 *
 * @param cells by diode class, then by rising resistance
 * @param best the allowed pair with the largest worst-case noise margin; empty if none is allowed
 */
public record PickMap(List<Cell> cells, Optional<Cell> best) {

    /**
     * One pair.
     *
     * @param ohm the pull-up's nominal resistance
     * @param diode its class
     * @param margin V, the worst over all corners of low level below its threshold and high level above its own; below 0
     *     where a level is wrong
     * @param errors what forbids the pair; empty if it is allowed
     */
    public record Cell(double ohm, DiodeClass diode, double margin, List<FindingCode> errors) {
        public Cell {
            errors = List.copyOf(errors);
        }

        /** True if nothing forbids it. */
        public boolean allowed() {
            return errors.isEmpty();
        }
    }

    public PickMap {
        cells = List.copyOf(cells);
    }

    /** The allowed resistances with a diode class, ascending: its window. */
    public List<Double> window(DiodeClass diode) {
        return cells.stream()
                .filter(c -> c.diode().equals(diode) && c.allowed())
                .map(Cell::ohm)
                .toList();
    }
}
