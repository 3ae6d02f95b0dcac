package coldward.figures;

import static coldward.quantity.Checks.notBlank;

import coldward.model.wiring.Wiring;
import coldward.model.wiring.analysis.Severity;
import java.util.List;

/**
 * What a wiring figure shows.
 *
 * @param printer its name
 * @param wiring boards, contacts, wires, fan and parts
 * @param pins the findings, worst first; each is pinned where it is and told below
 * @param verdict one sentence
 * @param cautions told at the end, each one sentence
 */
public record WiringPicture(String printer, Wiring wiring, List<Pin> pins, String verdict, List<String> cautions) {

    /**
     * One finding.
     *
     * @param severity error, warning or note
     * @param code stable
     * @param at a contact, a board, port, input or rail, a part, a wire or a connector; what is none of them is told below
     *     only
     * @param headline what is wrong, with its number against its limit
     * @param text why it matters and what mends it
     */
    public record Pin(Severity severity, String code, String at, String headline, String text) {
        public Pin {
            notBlank("code", code);
            notBlank("headline", headline);
        }
    }

    public WiringPicture {
        notBlank("printer", printer);
        notBlank("verdict", verdict);
        pins = List.copyOf(pins);
        cautions = List.copyOf(cautions);
    }
}
