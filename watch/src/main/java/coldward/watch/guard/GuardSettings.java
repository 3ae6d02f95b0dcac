package coldward.watch.guard;

import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.model.build.Build;
import coldward.model.build.Fan;
import coldward.model.build.Reading;
import coldward.model.build.Trip;
import coldward.model.shop.LinkSpec.Says;
import coldward.model.shop.WatchRules;
import coldward.quantity.InputError;
import java.util.OptionalLong;

/**
 * What a guard judges by.
 *
 * @param tripSpeed rpm; a report below it (strictly) counts against the fan
 * @param confirmations how many such reports in a row, 1 to 100
 * @param grace ns for which a starting fan is forgiven
 * @param reportInterval ns between two measurements of the machine
 * @param runsAbove K; above it (strictly) the nozzle needs the fan
 * @param says when the machine speaks of its speed
 * @param unheardAfter ns without a report until the printer is unheard
 * @param unheardRespondsAfter ns of being unheard, hot or working, until the response; empty: it only tells
 * @param contradictedRise K that the cold side may rise within a minute while the speed is fine
 * @param contradictedResponds whether a contradiction starts the response
 * @param coastAllowance ns for which a fan that was switched off may still show the trip speed
 */
public record GuardSettings(
        double tripSpeed,
        int confirmations,
        long grace,
        long reportInterval,
        double runsAbove,
        Says says,
        long unheardAfter,
        OptionalLong unheardRespondsAfter,
        double contradictedRise,
        boolean contradictedResponds,
        long coastAllowance) {

    private static final double NS = 1e9;

    public GuardSettings {
        positive("trip speed", tripSpeed, "rpm");
        within("trip confirmations", confirmations, 1, 100);
        within("trip grace", grace / NS, 0, 120, "s");
        within("reading report_interval", reportInterval / NS, 0.001, 600, "s");
        positive("fan runs_above", runsAbove, "K");
        within("unheard_after", unheardAfter / NS, 0.1, 3600, "s");
        unheardRespondsAfter.ifPresent(ns -> within("unheard_responds_after", ns / NS, 0, 3600, "s"));
        within("contradicted_rise", contradictedRise, 0.5, 100, "K");
        within("coast allowance", coastAllowance / NS, 0, 1e6, "s");
    }

    /**
     * The settings of a printer.
     *
     * <p>The coast allowance is the time for which a fast fan of this kind still shows the trip speed after its supply
     * is cut, by the coast law s(t) = 1/(1 + t/tau) from rated speed and upper tolerance, plus one report interval,
     * since each report is the mean over its interval.
     *
     * @param trip the sheet's, or the one chosen where the sheet leaves it open
     * @throws InputError if the printer reports no speed: nothing can be watched then
     */
    public static GuardSettings of(Build build, Trip trip, WatchRules rules, Says says) {
        if (!(build.reading() instanceof Reading.Tachometer tachometer)) {
            throw new InputError(
                    "reading",
                    "printer " + build.printer() + " reports no fan speed (reading: none); nothing to guard");
        }
        Fan fan = build.hotEnd().fan();
        double fastest = fan.ratedSpeed() * (1 + fan.speedTolerance());
        double coast = fan.coastDown() * Math.max(0, fastest / trip.speed() - 1);
        return new GuardSettings(
                trip.speed(),
                trip.confirmations(),
                nanos(trip.grace()),
                nanos(tachometer.reportInterval()),
                fan.runsAbove(),
                says,
                nanos(rules.unheardAfter()),
                rules.unheardRespondsAfter().isPresent()
                        ? OptionalLong.of(nanos(rules.unheardRespondsAfter().getAsDouble()))
                        : OptionalLong.empty(),
                rules.contradictedRise(),
                rules.contradictedResponds(),
                nanos(coast + tachometer.reportInterval()));
    }

    private static long nanos(double seconds) {
        return Math.round(seconds * NS);
    }
}
