package coldward.model.build;

import static coldward.quantity.Checks.notBlank;
import static coldward.quantity.Checks.positive;

import coldward.model.wiring.Wiring;
import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * One printer as its build sheet describes it.
 *
 * @param printer its name
 * @param hotEnd what decides the heat
 * @param reading how speed is reported
 * @param trip when it is stopped; empty where the sheet leaves it open
 * @param response what is done on a trip
 * @param spuriousTripsPerYear how many trips with a healthy fan are tolerated
 * @param spreads spread of every uncertain input, share or kelvin; complete
 * @param origins where every value came from, by dotted key, in the sheet's order
 * @param hoursPerYear printing hours in a year, h; what {@code spuriousTripsPerYear} refers to
 * @param wiring boards, contacts and wires; empty where the sheet does not describe them
 */
public record Build(
        String printer,
        HotEnd hotEnd,
        Reading reading,
        Optional<Trip> trip,
        Response response,
        double spuriousTripsPerYear,
        Map<Uncertain, Double> spreads,
        Map<String, Origin> origins,
        double hoursPerYear,
        Optional<Wiring> wiring) {

    /** Printing hours in a year where nothing is said; common practice, no source. */
    public static final double USUAL_HOURS_PER_YEAR = 4000;

    public Build {
        notBlank("printer", printer);
        positive("limits hours_per_year", hoursPerYear, "h");
        EnumMap<Uncertain, Double> complete = new EnumMap<>(Uncertain.class);
        for (Uncertain input : Uncertain.values()) {
            complete.put(input, spreads.getOrDefault(input, input.usualSpread()));
        }
        spreads = Collections.unmodifiableMap(complete);
        origins = Collections.unmodifiableMap(new LinkedHashMap<>(origins));
    }

    /** A printer that prints for {@value #USUAL_HOURS_PER_YEAR} h in a year and whose wiring is not described. */
    public Build(
            String printer,
            HotEnd hotEnd,
            Reading reading,
            Optional<Trip> trip,
            Response response,
            double spuriousTripsPerYear,
            Map<Uncertain, Double> spreads,
            Map<String, Origin> origins) {
        this(
                printer,
                hotEnd,
                reading,
                trip,
                response,
                spuriousTripsPerYear,
                spreads,
                origins,
                USUAL_HOURS_PER_YEAR,
                Optional.empty());
    }

    /** Spurious trips tolerated per 1,000 printing hours. */
    public double spuriousTripsPerThousandHours() {
        return spuriousTripsPerYear * 1000 / hoursPerYear;
    }

    /** True if some fact rests on a named class rather than on this machine: a single number would then be too sure. */
    public boolean restsOnClasses() {
        return origins.values().stream().anyMatch(o -> o.kind() == Origin.Kind.CLASS);
    }

    /** The same printer with another hot end. */
    public Build withHotEnd(HotEnd other) {
        return new Build(
                printer, other, reading, trip, response, spuriousTripsPerYear, spreads, origins, hoursPerYear, wiring);
    }

    /** The same printer with another reading. */
    public Build withReading(Reading other) {
        return new Build(
                printer, hotEnd, other, trip, response, spuriousTripsPerYear, spreads, origins, hoursPerYear, wiring);
    }

    /** The same printer with another response. */
    public Build withResponse(Response other) {
        return new Build(
                printer, hotEnd, reading, trip, other, spuriousTripsPerYear, spreads, origins, hoursPerYear, wiring);
    }

    /** The same printer with this trip. */
    public Build withTrip(Trip other) {
        return new Build(
                printer,
                hotEnd,
                reading,
                Optional.of(other),
                response,
                spuriousTripsPerYear,
                spreads,
                origins,
                hoursPerYear,
                wiring);
    }

    /** The same printer with the trip left open. */
    public Build withoutTrip() {
        return new Build(
                printer,
                hotEnd,
                reading,
                Optional.empty(),
                response,
                spuriousTripsPerYear,
                spreads,
                origins,
                hoursPerYear,
                wiring);
    }
}
