package coldward.rig;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Fan;
import coldward.model.build.Filament;
import coldward.model.build.HotEnd;
import coldward.model.build.HotSide;
import coldward.model.build.Material;
import coldward.model.build.Materials;
import coldward.model.build.Neck;
import coldward.model.build.Plastics;
import coldward.model.build.Reading;
import coldward.model.build.Response;
import coldward.model.build.Shank;
import coldward.model.build.Sink;
import coldward.model.build.Surroundings;
import coldward.model.build.Trip;
import coldward.model.shop.LinkSpec;
import coldward.model.shop.Shop;
import coldward.model.shop.WatchRules;
import coldward.quantity.Ticker;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.atomic.AtomicLong;

/** Printers and clocks for the tests: the example of the sheet's documentation. */
final class Examples {

    static final Reading.Tachometer TACHOMETER = new Reading.Tachometer(2, 0.5, new Reading.Sampled(0.001), 1.0);

    private Examples() {}

    static HotEnd hotEnd() {
        Material titanium = Materials.named("titanium").orElseThrow();
        return new HotEnd(
                new Surroundings(298.15, 101_325),
                Plastics.named("PLA").orElseThrow(),
                235 + 273.15,
                5e-9,
                new Filament(1.75e-3, 0.8),
                new HotSide(50, 12, 0.06, 0.18, 0.005),
                new Neck(List.of(new Neck.Segment(titanium, 2.1e-3, 3.0e-3)), 2.0e-3, Optional.empty()),
                new Shank(titanium, 6e-3, 8e-3, 5000),
                new Sink(
                        Materials.named("aluminium").orElseThrow(),
                        24e-3,
                        10,
                        1.0e-3,
                        20e-3,
                        9e-3,
                        0.8,
                        0.8,
                        0.01,
                        Optional.empty()),
                new Fan(24, 8000, 0.10, new Fan.Straight(1.7e-3, 35), 28e-3, 16e-3, 0.6, 0.8, 50 + 273.15),
                1.0,
                3e-3);
    }

    static Build build(Reading reading) {
        return new Build(
                "heron",
                hotEnd(),
                reading,
                Optional.of(new Trip(5200, 3, 5)),
                new Response(EnumSet.of(Action.HOLD, Action.HEATER_OFF, Action.BLOCK_FAN), 2.0, 0.5, 0.3, 0.1, 0.2),
                1,
                Map.of(),
                Map.of());
    }

    static SimulatedPrinter printer(SimulatedPrinter.Start start) {
        return SimulatedPrinter.of("heron", build(TACHOMETER), start, Traits.USUAL, 7);
    }

    static Shop shop(String... names) {
        LinkSpec link = new LinkSpec.Http(
                "http://localhost/x", 0.5, 1, LinkSpec.Says.ALWAYS, Map.of(), Map.of(), Map.of(), Map.of());
        WatchRules rules = new WatchRules(5, OptionalDouble.empty(), 5, false, WatchRules.USUAL_DRILL_EVERY);
        return new Shop(
                "brook lane",
                "state",
                List.of(names).stream()
                        .map(n -> new Shop.Printer(n, n + ".yaml", build(TACHOMETER), link, rules))
                        .toList());
    }

    /** A clock that stands until it is moved. */
    static final class HandTicker implements Ticker {
        private final AtomicLong nanos = new AtomicLong(1_000);

        void move(double seconds) {
            nanos.addAndGet(Math.round(seconds * 1e9));
        }

        @Override
        public long wallMillis() {
            return nanos.get() / 1_000_000;
        }

        @Override
        public long nanos() {
            return nanos.get();
        }

        @Override
        public Pending after(long delayNanos, Runnable task) {
            return () -> {};
        }
    }
}
