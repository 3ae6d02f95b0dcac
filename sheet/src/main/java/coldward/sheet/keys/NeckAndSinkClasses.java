package coldward.sheet.keys;

import coldward.model.build.Uncertain;
import coldward.sheet.keys.ClassTable.Entry;
import coldward.sheet.keys.ClassTable.Kind;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Classes of heat breaks and sinks: dimensions usual in the trade, all without a published source. */
final class NeckAndSinkClasses {

    private static final Map<Uncertain, Double> NECK_SPREAD = Map.of(Uncertain.NECK_CONDUCTANCE, 0.25);
    private static final Map<Uncertain, Double> SINK_SPREAD = Map.of(
            Uncertain.SINK_ON, 0.25,
            Uncertain.SINK_STILL, 0.25,
            Uncertain.SINK_HEAT_CAPACITY, 0.25);

    private NeckAndSinkClasses() {}

    static List<Entry> all() {
        List<Entry> all = new ArrayList<>();
        all.add(neck(
                "thin titanium", "titanium", "2.1 mm", "2.9 mm", Map.of(), "one-piece titanium alloy, wall 0.45 mm"));
        all.add(neck("long titanium", "titanium", "3 mm", "3.0 mm", Map.of(), "one-piece titanium alloy, long neck"));
        all.add(neck("short steel", "stainless steel", "2.1 mm", "2.9 mm", Map.of(), "one-piece stainless steel"));
        all.add(neck(
                "long steel", "stainless steel", "3 mm", "2.8 mm", Map.of(), "one-piece stainless steel, long neck"));
        all.add(neck(
                "thin two-metal",
                "stainless steel",
                "3 mm",
                "2.4 mm",
                Map.of("shank.material", "copper"),
                "thin steel tube in a copper shank; what is sold as a copper heat break"));
        all.add(neck(
                "long two-metal",
                "stainless steel",
                "4.5 mm",
                "2.7 mm",
                Map.of("shank.material", "copper"),
                "longer steel tube in a copper shank"));
        all.add(neck(
                "thin titanium two-metal",
                "titanium",
                "3 mm",
                "2.6 mm",
                Map.of("shank.material", "copper"),
                "thin titanium tube in a copper shank"));
        all.add(neck(
                "lined steel",
                "stainless steel",
                "4 mm",
                "5 mm",
                Map.of("neck.liner.outer_diameter", "4 mm", "neck.liner.conductivity", "0.25 W/(m K)"),
                "wide stainless steel with a plastic liner down to the block"));
        all.add(sink("round 22 mm", "26 mm", "11", "1.0 mm", "22 mm", "9 mm", "round, eleven fins, about 80 cm2"));
        all.add(sink("round 25 mm", "26 mm", "10", "1.2 mm", "25 mm", "11 mm", "round, ten thick fins"));
        all.add(sink("compact", "16 mm", "7", "1.0 mm", "20 mm", "9 mm", "short, seven fins, about 42 cm2"));
        all.add(sink(
                "small square", "16 mm", "6", "1.0 mm", "18 mm", "9 mm", "16 mm square, taken as round of equal area"));
        return all;
    }

    private static Entry neck(
            String name, String material, String length, String diameter, Map<String, String> more, String meaning) {
        Map<String, String> values = new LinkedHashMap<>();
        values.put("neck.material", material);
        values.put("neck.length", length);
        values.put("neck.diameter", diameter);
        values.putAll(more);
        return new Entry(Kind.NECK, name, values, NECK_SPREAD, Key.COMMON_PRACTICE, meaning);
    }

    private static Entry sink(
            String name, String length, String fins, String thickness, String outer, String core, String meaning) {
        Map<String, String> values = new LinkedHashMap<>();
        values.put("sink.material", "aluminium");
        values.put("sink.length", length);
        values.put("sink.fins", fins);
        values.put("sink.fin_thickness", thickness);
        values.put("sink.fin_diameter", outer);
        values.put("sink.core_diameter", core);
        return new Entry(Kind.SINK, name, values, SINK_SPREAD, Key.COMMON_PRACTICE, meaning);
    }
}
