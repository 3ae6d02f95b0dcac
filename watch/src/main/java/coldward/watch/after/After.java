package coldward.watch.after;

import coldward.model.build.Build;
import coldward.model.build.Reading.Tachometer;
import coldward.model.heat.LiveHotEnd;
import coldward.model.heat.Regime;
import coldward.quantity.InputError;
import coldward.watch.after.Likeliest.Cause;
import java.util.List;
import java.util.OptionalDouble;

/**
 * What a trip did to the filament: the record gone through the heat model once more.
 *
 * <p>The hot end begins hot and steady with a healthy fan, in the regime of the first moment. From one moment to the next
 * it is driven by what was recorded. A shown speed is the mean over the report interval before it was seen, so the speed
 * at a time t is the one shown an interval later. Where the heater's target is not told, the recorded nozzle temperature
 * stands in for it. Where the speed fell to nothing within a report, and a cold-side temperature is recorded, both stories
 * are gone through, with the speed as shown and with a healthy fan; the one whose sink is nearer to the record is told:
 * that is how a lost signal is told from a blocked fan. Without one the fan is taken to have stood, which is the worse.
 *
 * @param replayed s from the trip to the end
 * @param likeliest cause
 * @param deepest softened depth, m
 * @param limit of the softened depth, m
 * @param overLimit s for which the depth was above its limit
 * @param nowDepth softened depth at the end, m
 * @param nowBlock block at the end, K
 */
public record After(
        double replayed,
        Likeliest likeliest,
        double deepest,
        double limit,
        double overLimit,
        double nowDepth,
        double nowBlock) {

    private static final double OFF = 273.15;
    private static final double LONGEST_STEP = 0.25;

    /** What to do. */
    public enum Instruction {
        /** What is above the limit is soft: nothing is moved. */
        LEAVE_COLD(
                "leave-cold",
                "leave it cold: the filament above its limit is still soft; draw nothing back, push nothing, and ask again"
                        + " when it has cooled"),
        /** It was soft beyond its limit and has set there. */
        HEAT_AND_PULL_OUT(
                "heat-and-pull-out",
                "mend the fan, see that it turns, then heat again, push the filament by hand and pull it out: it softened"
                        + " beyond its limit and has set in the cold side"),
        /** It never was. */
        RESUME(
                "resume",
                "mend the fan, see that it turns, release the printer by name, heat and go on: the filament softened no"
                        + " deeper than its limit");

        private final String word;
        private final String words;

        Instruction(String word, String words) {
            this.word = word;
            this.words = words;
        }

        /** The word in outputs. */
        public String word() {
            return word;
        }

        /** The same as a sentence. */
        public String words() {
            return words;
        }
    }

    /** The one thing to do; never to draw back while soft. */
    public Instruction instruction() {
        if (nowDepth > limit) {
            return Instruction.LEAVE_COLD;
        }
        return deepest > limit ? Instruction.HEAT_AND_PULL_OUT : Instruction.RESUME;
    }

    /**
     * Goes through a record.
     *
     * @param build the printer
     * @param moments oldest first, at least two, from before the fall to the end
     * @throws InputError if there are fewer than two
     */
    public static After of(Build build, List<Moment> moments) {
        if (moments.size() < 2) {
            throw new InputError(
                    "moments", "the record has " + moments.size() + " moments but needs 2 or more to be gone through");
        }
        Likeliest shape = SpeedShape.of(build, moments);
        Story shown = Story.of(build, moments, false);
        boolean vanished = shape.cause() == Cause.BLOCKED || shape.cause() == Cause.STOP;
        if (vanished && shown.compared() > 0) {
            Story healthy = Story.of(build, moments, true);
            if (healthy.distance() < shown.distance()) {
                return healthy.told(new Likeliest(
                        Cause.SIGNAL_LOST,
                        "the cold side stayed as cool as with a turning fan (%.1f K from it, %.1f K from a standing one)"
                                .formatted(healthy.distance(), shown.distance())));
            }
        }
        String doubt = vanished && shown.compared() == 0
                ? "; without a cold-side temperature a lost signal looks the same, and the worse is taken"
                : "";
        return shown.told(new Likeliest(shape.cause(), shape.because() + doubt));
    }

    /** The same with another cause, where more is known than the speed's shape. */
    public After because(Likeliest other) {
        return new After(replayed, other, deepest, limit, overLimit, nowDepth, nowBlock);
    }

    /**
     * One way in which it may have gone.
     *
     * @param distance mean distance of the computed sink from the recorded one after the trip, K
     * @param compared how many moments were compared
     */
    private record Story(
            double replayed,
            double deepest,
            double limit,
            double overLimit,
            double nowDepth,
            double nowBlock,
            double distance,
            int compared) {

        static Story of(Build build, List<Moment> moments, boolean fanIsFine) {
            double limit = build.hotEnd().softenedDepthLimit();
            double window = build.reading() instanceof Tachometer t ? t.reportInterval() : 0;
            double healthy = SpeedShape.healthy(moments);
            double rated = build.hotEnd().fan().ratedSpeed();
            Moment first = moments.getFirst();
            LiveHotEnd heat = LiveHotEnd.settled(build.hotEnd(), first.feeding() ? Regime.PRINTING : Regime.HOT_IDLE);
            // where the sensor sits is not known: only its move from before is compared
            OptionalDouble sensorAbove = first.coldSide().isPresent()
                    ? OptionalDouble.of(first.coldSide().getAsDouble() - heat.sinkKelvin())
                    : OptionalDouble.empty();
            double deepest = heat.softenedDepth();
            double over = 0;
            double off = 0;
            int compared = 0;
            for (int i = 0; i + 1 < moments.size(); i++) {
                Moment moment = moments.get(i);
                double left = moments.get(i + 1).at() - moment.at();
                double at = moment.at();
                while (left > 1e-9) {
                    double step = Math.min(left, LONGEST_STEP);
                    double speed = fanIsFine ? healthy : shown(moments, i, at + step / 2 + window, healthy);
                    heat.advance(
                            step,
                            new LiveHotEnd.Drive(
                                    speed / rated,
                                    target(moment),
                                    moment.feeding() ? build.hotEnd().feed() : 0,
                                    moment.blown()));
                    deepest = Math.max(deepest, heat.softenedDepth());
                    over += heat.softenedDepth() > limit ? step : 0;
                    at += step;
                    left -= step;
                }
                Moment next = moments.get(i + 1);
                if (next.at() > 0 && next.coldSide().isPresent() && sensorAbove.isPresent()) {
                    off += Math.abs(next.coldSide().getAsDouble() - sensorAbove.getAsDouble() - heat.sinkKelvin());
                    compared++;
                }
            }
            return new Story(
                    moments.getLast().at(),
                    deepest,
                    limit,
                    over,
                    heat.softenedDepth(),
                    heat.blockKelvin(),
                    compared > 0 ? off / compared : 0,
                    compared);
        }

        /** The speed shown at a time, rpm: of the last moment up to it that tells one. */
        private static double shown(List<Moment> moments, int from, double at, double otherwise) {
            double rpm = moments.get(from).speed().orElse(otherwise);
            for (int i = from; i < moments.size() && moments.get(i).at() <= at; i++) {
                rpm = moments.get(i).speed().orElse(rpm);
            }
            return rpm;
        }

        private static double target(Moment moment) {
            double wanted = moment.target().orElse(moment.nozzle().orElse(0));
            return wanted <= OFF ? 0 : wanted;
        }

        After told(Likeliest likeliest) {
            return new After(replayed, likeliest, deepest, limit, overLimit, nowDepth, nowBlock);
        }
    }
}
