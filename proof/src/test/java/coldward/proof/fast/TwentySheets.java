package coldward.proof.fast;

import coldward.model.build.Build;
import coldward.sheet.Sheets;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * Twenty printers that differ in everything that the trip depends on: neck, plastic, air, fan, counter, report interval
 * and response. Each leaves its trip open. Invented; the ranges are common practice, no source.
 */
final class TwentySheets {

    /** Number of one whose counter resolves far finer than its fan trembles. */
    static final int FINELY_COUNTED = 6;

    private static final String[] NECKS = {
        "{material: titanium, length: 2.1 mm, diameter: 3.0 mm, bore: 2.0 mm}",
        "{material: titanium, length: 1.6 mm, diameter: 3.1 mm, bore: 2.0 mm}",
        "{material: stainless steel, length: 2.1 mm, diameter: 3.0 mm, bore: 2.0 mm}",
        "{material: titanium, length: 2.5 mm, diameter: 3.4 mm, bore: 2.0 mm}",
        "{material: stainless steel, length: 2.6 mm, diameter: 2.9 mm, bore: 2.0 mm}"
    };
    private static final String[] PLASTICS = {"PLA", "PETG", "ABS", "ASA"};
    private static final String[] NOZZLES = {"215 degC", "255 degC", "265 degC", "270 degC"};
    private static final String[] AIR = {"22 degC", "38 degC", "62 degC", "50 degC"};
    private static final String[] FEEDS = {"4 mm^3/s", "8 mm^3/s", "6 mm^3/s"};
    private static final String[] BLOCKS = {"12 J/K", "9 J/K", "18 J/K"};
    private static final String[] FINS = {"20 mm", "22 mm"};
    private static final String[] SPEEDS = {"8000 rpm", "12000 rpm", "6000 rpm"};
    private static final String[] COASTS = {"0.8 s", "0 s", "1.5 s"};
    private static final String[] READINGS = {
        "{pulses_per_turn: 2, duty: 50 %, counter: sampled, sampled_every: 0.5 ms, report_interval: 1 s}",
        "{pulses_per_turn: 2, duty: 50 %, counter: edge, report_interval: 1 s}",
        "{pulses_per_turn: 2, duty: 50 %, counter: edge, report_interval: 0.5 s}",
        "{pulses_per_turn: 2, duty: 45 %, counter: period-timer, clock: 1 MHz, report_interval: 2 s}"
    };
    private static final String[] RESPONSES = {"[hold, heater-off, block-fan]", "[hold, heater-off]"};
    private static final String[] HOLDS = {"2 s", "1 s", "3 s"};

    private TwentySheets() {}

    /** All of them, read as any sheet is. */
    static List<Build> all(Path folder) {
        List<Build> builds = new ArrayList<>();
        for (int i = 0; i < 20; i++) {
            int plastic = i % PLASTICS.length;
            String text = """
            printer: %s
            surroundings: {air: %s}
            plastic: %s
            nozzle: %s
            feed: %s
            filament: {diameter: 1.75 mm, offset: 0.8}
            hot_side: {heater: 50 W, block_heat_capacity: %s, block_loss: 0.06 W/K, block_loss_blown: 0.18 W/K, block_to_sink: 0.005 W/K}
            neck: %s
            shank: {diameter: 6 mm, length: 8 mm, contact: 5000 W/(m^2 K)}
            sink: {material: aluminium, length: 24 mm, fins: 10, fin_thickness: 1.0 mm, fin_diameter: %s, core_diameter: 9 mm, emissivity: 0.8, still_air_share: 0.8, mount_conductance: 0.01 W/K}
            fan: {rated_voltage: 24 V, rated_speed: %s, speed_tolerance: 10 %%, free_flow: 1.7 l/s, shutoff_pressure: 35 Pa, tip_diameter: 28 mm, hub_diameter: 16 mm, through_share: 0.6, coast_down: %s, runs_above: 50 degC}
            duct: {loss: 1.0}
            limits: {softened_depth: 3 mm, spurious_trips: 1 per year}
            reading: %s
            response: {actions: %s, hold_latency: %s, heater_latency: 0.5 s, block_fan_latency: 1 s, link_latency: 0.2 s}
            """.formatted(
                            "bird " + (i + 1),
                            AIR[plastic],
                            PLASTICS[plastic],
                            NOZZLES[plastic],
                            FEEDS[i % FEEDS.length],
                            BLOCKS[(i / 2) % BLOCKS.length],
                            NECKS[i % NECKS.length],
                            FINS[(i / 3) % FINS.length],
                            SPEEDS[(i / 4) % SPEEDS.length],
                            COASTS[(i / 5) % COASTS.length],
                            READINGS[(i / 2) % READINGS.length],
                            RESPONSES[(i / 6) % RESPONSES.length],
                            HOLDS[(i / 7) % HOLDS.length]);
            try {
                builds.add(Sheets.read(Files.writeString(folder.resolve("bird-" + (i + 1) + ".yaml"), text)));
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
        return builds;
    }
}
