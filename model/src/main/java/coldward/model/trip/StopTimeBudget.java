package coldward.model.trip;

import static coldward.quantity.Checks.notNegative;

/**
 * Where the stop time goes, in the order in which it passes; all in s.
 *
 * @param coast from the failure until the true speed is below the trip speed
 * @param reading from there to the end of the first report that is below it
 * @param confirmations the further reports that have to agree
 * @param link from the decision until the machine has the request
 * @param machine from the request until the slowest action has taken effect
 */
public record StopTimeBudget(double coast, double reading, double confirmations, double link, double machine) {
    public StopTimeBudget {
        notNegative("coast", coast, "s");
        notNegative("reading", reading, "s");
        notNegative("confirmations", confirmations, "s");
        notNegative("link", link, "s");
        notNegative("machine", machine, "s");
    }

    /** The stop time: from the failure until the response has taken effect, s. */
    public double total() {
        return coast + reading + confirmations + link + machine;
    }

    /** From the failure until the decision to act, s. */
    public double detection() {
        return coast + reading + confirmations;
    }
}
