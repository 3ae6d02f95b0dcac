package coldward.app.history;

import coldward.model.shop.ReadName;
import java.util.Arrays;
import java.util.Optional;

/** The columns of a recording, one for each read: its word and the unit its numbers are in. */
enum CsvColumn {
    SPEED(ReadName.SPEED, "_rpm", "rpm", 0, 200_000),
    REPORT(ReadName.REPORT, "", "", -1e15, 1e15),
    DUTY(ReadName.DUTY, "", "", 0, 1),
    SUPPLY(ReadName.SUPPLY, "_V", "V", 0, 100),
    AIR(ReadName.AIR, "_degC", "degC", -60, 1000),
    HEATER_POWER(ReadName.HEATER_POWER, "_W", "W", 0, 10_000),
    NOZZLE(ReadName.NOZZLE, "_degC", "degC", -60, 1000),
    NOZZLE_TARGET(ReadName.NOZZLE_TARGET, "_degC", "degC", -60, 1000),
    COLD_SIDE(ReadName.COLD_SIDE, "_degC", "degC", -60, 1000),
    WORKING(ReadName.WORKING, "", "", 0, 1),
    FEED(ReadName.FEED, "_mm3_s", "mm^3/s", 0, 1000),
    BLOCK_FAN(ReadName.BLOCK_FAN, "", "", 0, 1),
    POWER(ReadName.POWER, "", "", 0, 1);

    private static final double ZERO_CELSIUS = 273.15;
    private static final double CUBIC_MM = 1e-9;

    private final ReadName read;
    private final String header;
    private final String unit;
    private final double low;
    private final double high;

    CsvColumn(ReadName read, String suffix, String unit, double low, double high) {
        this.read = read;
        this.header = read.word() + suffix;
        this.unit = unit;
        this.low = low;
        this.high = high;
    }

    static Optional<CsvColumn> of(String header) {
        return Arrays.stream(values()).filter(c -> c.header.equals(header)).findFirst();
    }

    static CsvColumn of(ReadName read) {
        return Arrays.stream(values()).filter(c -> c.read == read).findFirst().orElseThrow();
    }

    ReadName read() {
        return read;
    }

    String header() {
        return header;
    }

    String unit() {
        return unit;
    }

    /** Smallest value that can be true, in the column's unit. */
    double low() {
        return low;
    }

    /** Greatest value that can be true, in the column's unit. */
    double high() {
        return high;
    }

    /** A number of the column in the read's unit. */
    double toRead(double value) {
        return switch (unit) {
            case "degC" -> value + ZERO_CELSIUS;
            case "mm^3/s" -> value * CUBIC_MM;
            default -> value;
        };
    }

    /** A read in the column's unit. */
    double fromRead(double value) {
        return switch (unit) {
            case "degC" -> value - ZERO_CELSIUS;
            case "mm^3/s" -> value / CUBIC_MM;
            default -> value;
        };
    }
}
