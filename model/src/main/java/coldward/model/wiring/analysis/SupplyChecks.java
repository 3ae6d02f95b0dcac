package coldward.model.wiring.analysis;

import coldward.model.circuit.DcResult.Converged;
import coldward.model.circuit.OperatingPoint;
import coldward.model.wiring.Board;
import coldward.model.wiring.ContactId;
import coldward.model.wiring.Part;
import coldward.model.wiring.Port;
import coldward.model.wiring.Rail;
import coldward.model.wiring.Wire;
import coldward.model.wiring.WiredFan;
import coldward.model.wiring.Wiring;
import coldward.model.wiring.analysis.StateSolver.Solved;
import coldward.model.wiring.analysis.WiringState.Fan;
import java.util.List;
import java.util.OptionalDouble;

/** What arrives at the fan, and what rails, ports and contacts carry for it, running and starting. */
final class SupplyChecks {

    private final Wiring wiring;
    private final FindingList findings;

    SupplyChecks(Wiring wiring, FindingList findings) {
        this.wiring = wiring;
        this.findings = findings;
    }

    /** One state with the port on. */
    void check(Solved solved) {
        if (!(solved.result() instanceof Converged c)) {
            return;
        }
        OperatingPoint point = c.point();
        String words = solved.state().words();
        boolean starting = solved.state().fan() == Fan.STARTING;
        atTheFan(point, words, starting);
        for (Board board : wiring.boards()) {
            board.rails().forEach(r -> rail(board, r, point, words));
            board.ports().forEach(p -> port(board, p, point, words));
        }
        for (Part part : wiring.parts()) {
            if (part instanceof Part.Converter converter) {
                double amperes = -point.current(CircuitOfWiring.part(part));
                over(FindingCode.RAIL_OVERLOADED, part.name(), amperes, converter.currentLimit(), words);
            }
        }
        if (!starting) {
            wiring.wires().forEach(w -> contacts(w, point, words));
        }
    }

    private void atTheFan(OperatingPoint point, String words, boolean starting) {
        WiredFan fan = wiring.fan();
        double volts = point.voltage(WiredFan.PLUS.toString(), WiredFan.MINUS.toString());
        double source = volts + lost(point);
        if (volts > fan.highestVoltage() + Limits.ROUNDING_V) {
            findings.add(
                    FindingCode.RAIL_ABOVE_FAN,
                    "fan",
                    volts,
                    fan.highestVoltage(),
                    "V",
                    words,
                    "the fan's electronics are destroyed, at once or within days",
                    "a fan for this rail, another rail, or a converter between them");
        } else if (source < fan.lowestVoltage() - Limits.ROUNDING_V) {
            findings.add(
                    FindingCode.RAIL_BELOW_FAN,
                    "fan",
                    source,
                    fan.lowestVoltage(),
                    "V",
                    words,
                    "the fan runs slowly or not at all, and cools accordingly",
                    "a fan for this rail, or the rail the fan is made for");
        } else if (starting && volts < fan.startVoltage()) {
            findings.add(
                    FindingCode.TOO_LITTLE_TO_START,
                    "fan",
                    volts,
                    fan.startVoltage(),
                    "V",
                    words,
                    "a standing fan draws more and gets less: it may not start",
                    "thicker or shorter wire: the loop counts twice the length");
        } else if (volts < fan.lowestVoltage() - Limits.ROUNDING_V) {
            findings.add(
                    FindingCode.DROP_TOO_LARGE,
                    "fan",
                    volts,
                    fan.lowestVoltage(),
                    "V",
                    words,
                    "wires and contacts keep too much of the supply: the fan starts late and runs slowly",
                    "thicker or shorter wire: the loop counts twice the length");
        }
    }

    /** V lost on wires and port switches that carry the fan's current, there and back. */
    private double lost(OperatingPoint point) {
        double fan = Math.abs(point.current(CircuitOfWiring.MOTOR));
        double sum = 0;
        for (Wire wire : wiring.wires()) {
            double amperes = Math.abs(point.current(CircuitOfWiring.wire(wire)));
            if (amperes > 0.9 * fan) {
                sum += Math.abs(point.voltage(wire.from().toString(), wire.to().toString()));
            }
        }
        for (Board board : wiring.boards()) {
            for (Port port : board.ports()) {
                double amperes = Math.abs(point.current(CircuitOfWiring.portSwitch(board, port)));
                if (amperes > 0.9 * fan) {
                    sum += amperes * port.onResistance();
                }
            }
        }
        return sum;
    }

    private void rail(Board board, Rail rail, OperatingPoint point, String words) {
        double drawn = -point.current(CircuitOfWiring.rail(board, rail.name()));
        if (drawn > Limits.NOTHING_A) {
            over(
                    FindingCode.RAIL_OVERLOADED,
                    board.name() + "." + rail.name(),
                    drawn + rail.otherLoad(),
                    rail.currentLimit(),
                    words);
        }
    }

    private void port(Board board, Port port, OperatingPoint point, String words) {
        double amperes = Math.abs(point.current(CircuitOfWiring.portSwitch(board, port)));
        over(FindingCode.PORT_OVERLOADED, board.name() + "." + port.name(), amperes, port.currentLimit(), words);
    }

    private void contacts(Wire wire, OperatingPoint point, String words) {
        double amperes = Math.abs(point.current(CircuitOfWiring.wire(wire)));
        for (ContactId contact : List.of(wire.from(), wire.to())) {
            OptionalDouble rating = wiring.contactRating(contact);
            if (rating.isPresent()) {
                over(FindingCode.CONTACT_OVERLOADED, contact.toString(), amperes, rating.getAsDouble(), words);
            }
        }
    }

    private void over(FindingCode code, String at, double amperes, double limit, String words) {
        if (amperes <= limit) {
            return;
        }
        String why = switch (code) {
            case RAIL_OVERLOADED -> "the rail sags or shuts down, and with it everything else on it";
            case PORT_OVERLOADED -> "the port's switch overheats and may fail closed or open";
            default -> "the contact heats up, its spring relaxes, its resistance grows: it burns in time";
        };
        String fix = switch (code) {
            case RAIL_OVERLOADED -> "take loads off this rail, or feed the fan from a stronger one";
            case PORT_OVERLOADED -> "a port that carries the starting current, or a separate switch";
            default -> "a connector family with a higher rating, or two contacts in parallel with one wire each";
        };
        findings.add(code, at, amperes, limit, "A", words, why, fix);
    }
}
