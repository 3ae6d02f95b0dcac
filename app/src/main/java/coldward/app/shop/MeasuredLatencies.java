package coldward.app.shop;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Response;
import coldward.model.heat.Deadline;
import coldward.model.shop.LinkSpec;
import coldward.model.shop.Shop;
import coldward.model.trip.Margin;
import coldward.model.verdict.Assessment;
import coldward.watch.Latencies;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What a printer's responses took, beside what its sheet says, and what the margin would be with it. Offered for the sheet
 * is the worst time measured, rounded up: a sheet that promises less than a machine has needed is wrong. Less than the
 * sheet says is offered only after several measurements.
 *
 * @param printer its name
 * @param responses how many responses were measured
 * @param rows one for each latency of the sheet that was measured
 * @param now margin with the sheet's values; empty where nothing notices
 * @param then margin with the measured ones
 */
public record MeasuredLatencies(
        String printer, int responses, List<Row> rows, Optional<Margin> now, Optional<Margin> then) {

    /** Times are offered in steps of this, s: finer than what a poll can tell would be a pretence. */
    private static final double STEP = 0.05;

    /** Measured times below which no smaller value than the sheet's is offered (own choice). */
    private static final int FEWEST = 5;

    public MeasuredLatencies {
        rows = List.copyOf(rows);
    }

    /**
     * One latency.
     *
     * @param what the action's word, or {@code link}
     * @param key its key in the sheet
     * @param median s
     * @param worst s
     * @param count how many times it was measured
     * @param sheet the sheet's value, s
     * @param offered what is offered for the sheet, s
     */
    public record Row(String what, String key, double median, double worst, int count, double sheet, double offered) {

        /** Whether the sheet promises less than was needed. */
        public boolean optimistic() {
            return worst > sheet;
        }
    }

    /** For one printer. */
    public static MeasuredLatencies of(Shop.Printer printer, Assessment assessment, Latencies measured) {
        Build build = printer.build();
        Response response = build.response();
        List<Row> rows = new ArrayList<>();
        // a report is seen up to one poll after the machine has it; the sheet's link latency holds that, too
        double poll = printer.link() instanceof LinkSpec.Http http ? http.every() : 0;
        if (!measured.request().isEmpty()) {
            rows.add(row("link", "response.link_latency", measured.request(), response.linkLatency(), poll));
        }
        measured.effect()
                .forEach((action, times) ->
                        rows.add(row(action.word(), key(action), times, response.latencyOf(action), 0)));
        return new MeasuredLatencies(
                printer.name(),
                measured.responses(),
                rows,
                margin(build, assessment),
                rows.isEmpty() ? Optional.empty() : margin(build.withResponse(with(response, rows)), assessment));
    }

    private static Row row(String what, String key, List<Double> times, double sheet, double more) {
        double worst = Latencies.worst(times) + more;
        // a hair less before rounding up: 0.1 is not 0.15 because of its last binary digit
        double offered = Math.ceil(worst / STEP - 1e-9) * STEP;
        boolean tooFew = times.size() < FEWEST;
        return new Row(
                what,
                key,
                Latencies.median(times) + more,
                worst,
                times.size(),
                sheet,
                tooFew ? Math.max(sheet, offered) : offered);
    }

    private static String key(Action action) {
        return switch (action) {
            case HOLD -> "response.hold_latency";
            case HEATER_OFF -> "response.heater_latency";
            case BLOCK_FAN -> "response.block_fan_latency";
            case POWER_OFF -> "response.power_latency";
        };
    }

    private static Response with(Response old, List<Row> rows) {
        Map<String, Double> by = new LinkedHashMap<>();
        rows.forEach(r -> by.put(r.key(), r.offered()));
        return new Response(
                old.actions(),
                by.getOrDefault("response.hold_latency", old.holdLatency()),
                by.getOrDefault("response.heater_latency", old.heaterLatency()),
                by.getOrDefault("response.block_fan_latency", old.blockFanLatency()),
                by.getOrDefault("response.power_latency", old.powerLatency()),
                by.getOrDefault("response.link_latency", old.linkLatency()));
    }

    private static Optional<Margin> margin(Build build, Assessment assessment) {
        OptionalDouble stop = Assessment.stopSeconds(
                build, assessment.trip(), build.response().actions());
        Deadline deadline = assessment.outcome() instanceof Assessment.Outcome.Raced raced
                ? raced.deadline()
                : assessment.deadline(build.response().actions()).orElse(Deadline.never());
        return stop.stream().mapToObj(s -> Margin.of(deadline, s)).findFirst();
    }
}
