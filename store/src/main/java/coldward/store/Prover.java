package coldward.store;

import coldward.quantity.InputError;
import coldward.store.Proof.Broken;
import coldward.store.Proof.Difference;
import coldward.watch.Journal;
import java.util.Optional;

/** Goes along the rows in the order of their numbers and stops at the first that does not fit. */
final class Prover {

    private final Optional<Proof.Anchor> anchor;
    private long last;
    private String head = Chain.BEGINNING;
    private Optional<Broken> broken = Optional.empty();

    Prover(Optional<Proof.Anchor> anchor) {
        this.anchor = anchor;
    }

    /** Looks at the next row; false once one did not fit, after which there is nothing more to see. */
    boolean fits(Row row) {
        broken = difference(row);
        if (broken.isPresent()) {
            return false;
        }
        last = row.number();
        head = row.hash();
        return true;
    }

    /** The result once there is no further row. */
    Proof proof() {
        if (broken.isPresent()) {
            return broken.get();
        }
        if (anchor.isPresent() && anchor.get().number() > last) {
            return new Broken(
                    last + 1,
                    Difference.CUT_OFF,
                    "the last entry is " + last + ", noted was " + anchor.get().number());
        }
        return new Proof.Whole(last, head, anchor.isPresent());
    }

    private Optional<Broken> difference(Row row) {
        if (row.number() != last + 1) {
            return broken(row, Difference.MISSING_NUMBER, "expected number " + (last + 1) + ", found " + row.number());
        }
        Optional<Journal.Entry> entry = row.entry();
        if (entry.isEmpty()) {
            return broken(row, Difference.UNREADABLE, "facts: " + shortened(row.facts()));
        }
        String computed;
        try {
            // the text itself is compared too: what reads the same but is written differently was not written by us
            if (!CanonicalJson.of(entry.get().facts()).equals(row.facts())) {
                return broken(row, Difference.CHANGED_ENTRY, "facts are not in canonical form");
            }
            computed = Chain.hash(row.previous(), row.number(), entry.get());
        } catch (InputError e) {
            return broken(row, Difference.UNREADABLE, String.valueOf(e.getMessage()));
        }
        if (!computed.equals(row.hash())) {
            return broken(row, Difference.CHANGED_ENTRY, "kept hash " + row.hash() + ", its content gives " + computed);
        }
        if (!row.previous().equals(head)) {
            return broken(
                    row, Difference.WRONG_PREVIOUS, "it follows hash " + row.previous() + ", before it stands " + head);
        }
        if (anchor.isPresent()
                && anchor.get().number() == row.number()
                && !anchor.get().hash().equals(row.hash())) {
            return broken(
                    row,
                    Difference.ANCHOR_DIFFERS,
                    "kept hash " + row.hash() + ", noted was " + anchor.get().hash());
        }
        return Optional.empty();
    }

    private static Optional<Broken> broken(Row row, Difference what, String detail) {
        return Optional.of(new Broken(row.number(), what, detail));
    }

    private static String shortened(String text) {
        return text.length() <= 80 ? text : text.substring(0, 80) + "...";
    }
}
