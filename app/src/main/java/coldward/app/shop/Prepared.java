package coldward.app.shop;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.heat.Deadline;
import coldward.model.heat.Race;
import coldward.model.heat.Regime;
import coldward.model.shop.Shop;
import coldward.model.trip.Margin;
import coldward.model.verdict.Assessment;
import coldward.model.verdict.BlockFanTime;
import coldward.watch.ResponsePlan;
import coldward.watch.WatchedPrinter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

/**
 * A printer with everything computed before the watch begins.
 *
 * @param printer as the shop file has it
 * @param assessment of its build
 * @param watched what the watch needs; empty where nothing reports its speed or no trip speed would do
 */
public record Prepared(Shop.Printer printer, Assessment assessment, Optional<WatchedPrinter> watched) {

    /** Prepares every printer of a shop; printers of the same build are computed once. */
    public static Map<String, Prepared> all(Shop shop) {
        Map<Build, Assessment> known = new HashMap<>();
        Map<Build, Double> blockFan = new HashMap<>();
        Map<String, Prepared> prepared = new LinkedHashMap<>();
        for (Shop.Printer printer : shop.printers()) {
            Assessment assessment = known.computeIfAbsent(printer.build(), Assessment::of);
            double seconds = blockFan.computeIfAbsent(printer.build(), b -> BlockFanTime.seconds(b.hotEnd()));
            prepared.put(printer.name(), new Prepared(printer, assessment, watched(printer, assessment, seconds)));
        }
        return prepared;
    }

    private static Optional<WatchedPrinter> watched(Shop.Printer printer, Assessment assessment, double blockFan) {
        boolean watchable = assessment.outcome() instanceof Assessment.Outcome.Raced
                || assessment.outcome() instanceof Assessment.Outcome.SoftWhileHealthy;
        if (!watchable
                || assessment.trip().isEmpty()
                || printer.build().reading() instanceof coldward.model.build.Reading.None) {
            return Optional.empty();
        }
        List<ResponsePlan.Choice> choices = new ArrayList<>();
        for (Set<Action> response : Race.RESPONSES) {
            // [hold] alone lets the block heat on, [heater-off] alone lets the job go on: still better than nothing
            choices.add(new ResponsePlan.Choice(
                    response, saves(assessment.deadline(response).orElse(Deadline.never()))));
        }
        return Optional.of(WatchedPrinter.of(printer, assessment.trip().get(), choices, blockFan));
    }

    private static ResponsePlan.Saves saves(Deadline deadline) {
        return switch (deadline) {
            case Deadline.Never n -> new ResponsePlan.Saves.Never();
            case Deadline.Until(double seconds) -> new ResponsePlan.Saves.Until(seconds);
            case Deadline.Always a -> new ResponsePlan.Saves.Always();
        };
    }

    /** The deadline of the sheet's own response: of printing while a job is known to feed, else of the worse regime. */
    public Deadline deadline(boolean feeding) {
        Set<Action> own = printer.build().response().actions();
        Optional<Deadline> printing = feeding ? assessment.deadline(Regime.PRINTING, own) : Optional.empty();
        return printing.orElseGet(() -> assessment.outcome() instanceof Assessment.Outcome.Raced raced
                ? raced.deadline()
                : assessment.deadline(own).orElse(Deadline.never()));
    }

    /** The predicted stop time, 99 % over the phase of the reports, s; empty where nothing notices. */
    public OptionalDouble stopTime() {
        return Assessment.stopSeconds(
                printer.build(), assessment.trip(), printer.build().response().actions());
    }

    /** The margin now. */
    public Optional<Margin> margin(boolean feeding) {
        return stopTime().stream()
                .mapToObj(s -> Margin.of(deadline(feeding), s))
                .findFirst();
    }
}
