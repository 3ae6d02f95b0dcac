package coldward.app.trip;

import coldward.app.race.Sentences;
import coldward.model.build.Build;
import coldward.model.build.Response;
import coldward.model.build.Trip;
import coldward.model.design.Judged;
import coldward.model.design.TripDesign;
import coldward.model.trip.HealthyFan;
import coldward.model.trip.SpuriousRate;
import coldward.model.trip.TripChoice;
import coldward.model.trip.Trips;
import coldward.quantity.Checks;

/** A trip's design in words; the same sentences in terminal, figure and JSON. */
public final class TripSentences {

    private static final double NEVER = 1e-9;

    private TripSentences() {}

    /** What to set, or why nothing will do; two sentences at most. */
    public static String verdict(TripDesign design) {
        String printer = design.build().printer();
        if (design.softWhileHealthy()) {
            return printer + " cannot run: its cold side is soft with a healthy fan, so no trip helps.";
        }
        return switch (design.choice()) {
            case TripChoice.NoReading none ->
                printer + " is unprotected: no speed is read, so there is nothing to trip on.";
            case TripChoice.NoRoom room ->
                printer + " is not safe: no trip speed will do. " + capital(noRoom(design, room));
            case TripChoice.Chosen chosen -> chosen(design, printer);
        };
    }

    private static String chosen(TripDesign design, String printer) {
        Judged judged = design.recommended().orElseThrow();
        String what = words(judged.trip()) + " and " + Response.words(judged.response());
        String margin = judged.margin().words();
        String first = judged.safe()
                ? "Set %s to %s: %s.".formatted(printer, what, margin)
                : "%s is not safe: even with %s, the best there is, %s.".formatted(printer, what, margin);
        if (design.safe() || !judged.safe()) {
            return first;
        }
        return first + " As its sheet stands it is not safe: "
                + standing(design, design.standing().orElseThrow()) + ".";
    }

    /** What the sheet's own settings come to. */
    public static String standing(TripDesign design, Judged judged) {
        String what = words(judged.trip()) + " and " + Response.words(judged.response());
        return switch (judged.finding()) {
            case TRIPS_AT_ONCE -> what + " would trip a healthy fan at once";
            case BELOW_UNSAFE ->
                "%s leaves a fan between %.0f and %.0f rpm unnoticed that softens the cold side in more than 5 of 100 draws"
                        .formatted(what, judged.trip().speed(), design.lowestTripSpeed());
            case SIGNAL_LOSS_UNNOTICED -> what + " would not notice a lost signal";
            case NONE -> what + ": " + judged.margin().words();
        };
    }

    /** What keeps the trip from being better, or from being at all. */
    public static String binding(TripDesign design) {
        if (design.softWhileHealthy()) {
            return "heat: the cold side is soft with a healthy fan";
        }
        return switch (design.choice()) {
            case TripChoice.NoReading none -> "reading: no speed is read";
            case TripChoice.NoRoom room -> "room: " + noRoom(design, room).replaceAll("\\.$", "");
            case TripChoice.Chosen chosen -> {
                int k = chosen.trip().confirmations();
                Judged judged = design.recommended().orElseThrow();
                String tightest = "the smallest margin is that when "
                        + judged.binding().mode().words();
                yield k == 1
                        ? "one low report is enough: a healthy fan gives %s; %s"
                                .formatted(rate(judged.spurious(), design.build()), tightest)
                        : fewer(design, k, chosen) + "; " + tightest;
            }
        };
    }

    private static String fewer(TripDesign design, int k, TripChoice.Chosen chosen) {
        double highest = design.highestTripSpeed(k - 1).orElse(0.0);
        String limit = limit(design.build());
        String few = k == 2 ? "1 confirmation" : (k - 1) + " confirmations";
        return highest <= 0
                ? "spurious trips: with %s, stray zero reports alone would trip more than %s".formatted(few, limit)
                : "spurious trips: with %s, a healthy fan keeps to %s up to %.0f rpm only, and heat asks for %.0f rpm"
                        .formatted(few, limit, highest, chosen.unsafeBelow());
    }

    private static String noRoom(TripDesign design, TripChoice.NoRoom room) {
        Build build = design.build();
        if (design.lowestTripSpeed() >= design.fan().fullSpeed(build) * (1 - 1e-9)) {
            return "in more than 5 of 100 draws the cold side is soft with the fan at full speed, so that every trip speed below it may come too late.";
        }
        return "heat asks for %.0f rpm or more (95 of 100 draws), but above %.0f rpm a healthy fan trips more than %s, even with %d confirmations."
                .formatted(room.unsafeBelow(), room.spuriousAbove(), limit(build), Trips.MOST_CONFIRMATIONS);
    }

    /** Where the reports come from. */
    public static String source(TripDesign design) {
        HealthyFan fan = design.fan();
        if (fan.source() == HealthyFan.Source.BASELINE) {
            return "reports from the recording: mean %.0f rpm, deviation %.0f rpm, correlation %.2f, %s of them outliers"
                    .formatted(
                            fan.slowest().mean(),
                            fan.slowest().deviation(),
                            fan.slowest().correlation(),
                            share(fan.slowest().outlierRate()));
        }
        return ("no recording given: rated speed and tolerance of the sheet, %.0f to %.0f rpm, with assumed scatter"
                        + " (deviation %.0f rpm, correlation %.1f, %s stray zero reports); --baseline takes this fan's own")
                .formatted(
                        fan.slowest().mean(),
                        fan.fastest().mean(),
                        fan.slowest().deviation(),
                        fan.slowest().correlation(),
                        share(fan.slowest().outlierRate()));
    }

    /** A trip as a sheet has it. */
    public static String words(Trip trip) {
        return "trip at %.0f rpm with %d confirmation%s"
                .formatted(trip.speed(), trip.confirmations(), trip.confirmations() == 1 ? "" : "s");
    }

    /** A rate per year, in words. */
    public static String rate(SpuriousRate rate, Build build) {
        double year = rate.perYear(build.hoursPerYear());
        if (year < NEVER) {
            return "no spurious trips";
        }
        String most = rate instanceof SpuriousRate.AtMost ? "at most " : "";
        return most
                + (year >= 0.01
                        ? number(year) + " spurious trips a year"
                        : "a spurious trip in " + Checks.number(round(1 / year)) + " years");
    }

    /** Two significant digits. */
    public static String number(double value) {
        return Math.abs(value) >= 10 ? Sentences.number(value) : Checks.number(round(value));
    }

    private static double round(double value) {
        if (value == 0) {
            return 0;
        }
        double scale = Math.pow(10, 1 - Math.floor(Math.log10(Math.abs(value))));
        return scale >= 1 ? Math.rint(value * scale) / scale : Math.rint(value * scale) * Math.rint(1 / scale);
    }

    private static String share(double share) {
        return share == 0 ? "none" : "1 in " + Checks.number(Math.rint(1 / share));
    }

    private static String limit(Build build) {
        return number(build.spuriousTripsPerYear())
                + " time a year".replace("time", build.spuriousTripsPerYear() == 1 ? "time" : "times");
    }

    private static String capital(String text) {
        return Character.toUpperCase(text.charAt(0)) + text.substring(1);
    }
}
