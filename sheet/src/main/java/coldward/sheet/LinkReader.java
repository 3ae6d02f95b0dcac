package coldward.sheet;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Reading;
import coldward.model.shop.LinkSpec;
import coldward.model.shop.ReadName;
import coldward.quantity.Dimension;
import coldward.quantity.InputError;
import coldward.quantity.Unit;
import coldward.quantity.Units;
import coldward.sheet.keys.Json;
import coldward.sheet.keys.Nearest;
import coldward.sheet.keys.ReadUnits;
import coldward.sheet.keys.Walk;
import coldward.sheet.yaml.Tree;
import java.io.IOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.json.JsonMapper;

/** One printer's link out of a shop file. Findings go to the facts; secrets go nowhere but into the link. */
final class LinkReader {

    private static final JsonMapper JSON = JsonMapper.builder().build();
    private static final String HEADER_NAME = "[!#$%&'*+.^_`|~0-9A-Za-z-]+";
    private static final long LARGEST_SECRET = 8192;

    /** Below this a set temperature of nothing, read back, counts as reached, K; common practice, no source. */
    private static final double TEMPERATURE_TOLERANCE_K = 1;

    private final ShopFacts facts;
    private final String at;
    private final Path folder;
    private final Map<String, String> environment;

    /** @param at the link's path in the shop file */
    LinkReader(ShopFacts facts, String at, Path folder, Map<String, String> environment) {
        this.facts = facts;
        this.at = at;
        this.folder = folder;
        this.environment = environment;
    }

    /** The link of a machine of this name. */
    LinkSpec.Http http(String name) {
        Map<ReadName, LinkSpec.HttpRead> reads = reads(name);
        return new LinkSpec.Http(
                base(name),
                facts.wantedQuantity(at + ".http.every"),
                facts.wantedQuantity(at + ".http.time_limit"),
                facts.wanted(at + ".says").equals("always") ? LinkSpec.Says.ALWAYS : LinkSpec.Says.ON_CHANGE,
                reads,
                acts(name),
                proofs(),
                headers());
    }

    /** What must be there for this printer to be protected. */
    void checkComplete(Build build) {
        if (!(build.reading() instanceof Reading.None) && !facts.isGiven(at + ".reads.speed")) {
            facts.problem(
                    at + ".reads.speed",
                    "is missing although the sheet says that speed is reported; write for example reads: {speed: {path: /fan, pointer: /speed_rpm, unit: rpm}}, or reading: none in the sheet");
        }
        for (Action action : Action.values()) {
            String act = at + ".acts." + action.word();
            String proof = at + ".proofs." + action.word();
            if (build.response().actions().contains(action) && !facts.isGiven(act)) {
                facts.problem(
                        act,
                        "is missing although the response of %s has it; write for example acts: {%s: {method: POST, path: /do/%s}}, or take it out of the sheet's response"
                                .formatted(build.printer(), action.word(), action.word()));
            }
            if (facts.isGiven(act) && !facts.isGiven(proof)) {
                facts.problem(
                        proof,
                        "is missing: nothing would show that %s has taken effect; write for example proofs: {%s: {read: working, is: false, within: 5 s}}"
                                .formatted(action.word(), action.word()));
            }
            if (facts.isGiven(proof) && !facts.isGiven(act)) {
                facts.problem(
                        proof,
                        "proves an action that no act requests; add acts: {%s: {method: POST, path: /do/%s}} or take the proof out"
                                .formatted(action.word(), action.word()));
            }
        }
    }

    /** True if some text of the link changes with the machine's name. */
    boolean usesName() {
        return !base("a").equals(base("b"))
                || !reads("a").equals(reads("b"))
                || !acts("a").equals(acts("b"));
    }

    private String base(String name) {
        String path = at + ".http.base";
        String text = facts.wanted(path).replace("{name}", inUrl(name));
        while (text.endsWith("/")) {
            text = text.substring(0, text.length() - 1);
        }
        try {
            URI uri = new URI(text);
            if (uri.getRawUserInfo() != null) {
                // not shown: it holds a password
                facts.problem(
                        path,
                        "has a name or password in it; take it out and send it as a header from the environment: headers: {Authorization: {env: NAME}}");
            } else if (uri.getHost() == null || uri.getRawQuery() != null || uri.getRawFragment() != null) {
                facts.problem(
                        path, "is not a plain address of a machine; write for example http://localhost:7070/heron");
            }
        } catch (URISyntaxException e) {
            facts.problem(
                    path,
                    "is not an address (at character " + (e.getIndex() + 1)
                            + "); write for example http://localhost:7070/heron");
        }
        return text;
    }

    private static String inUrl(String name) {
        return URLEncoder.encode(name, StandardCharsets.UTF_8).replace("+", "%20");
    }

    private static String inPointer(String name) {
        return name.replace("~", "~0").replace("/", "~1");
    }

    private String path(String key, String name) {
        String text = facts.wanted(key).replace("{name}", inUrl(name));
        try {
            new URI("http", "h", null, null).resolve(text);
        } catch (URISyntaxException | IllegalArgumentException e) {
            facts.problem(key, "is not a path of an address; write for example /do/hold");
        }
        return text;
    }

    private Map<ReadName, LinkSpec.HttpRead> reads(String name) {
        Map<ReadName, LinkSpec.HttpRead> reads = new EnumMap<>(ReadName.class);
        for (ReadName read : ReadName.values()) {
            String key = at + ".reads." + read.word();
            if (facts.isGiven(key)) {
                Optional<Unit> unit = unit(read, key);
                reads.put(
                        read,
                        new LinkSpec.HttpRead(
                                path(key + ".path", name),
                                facts.wanted(key + ".pointer").replace("{name}", inPointer(name)),
                                unit.map(Unit::scale).orElse(1.0),
                                unit.map(Unit::offset).orElse(0.0)));
            }
        }
        return reads;
    }

    private Optional<Unit> unit(ReadName read, String key) {
        Optional<String> text = facts.find(key + ".unit");
        Dimension dimension = read.dimension();
        if (text.isEmpty()) {
            if (ReadUnits.needsUnit(read)) {
                facts.problem(
                        key + ".unit",
                        "is missing; say what the machine's number is in, for example unit: %s (accepted: %s)"
                                .formatted(Units.accepted(dimension).getFirst(), linear(dimension)));
            }
            return Optional.empty();
        }
        if (ReadUnits.isBare(read)) {
            facts.problem(key + ".unit", "does not belong here: " + read.word() + " has no unit; take it out");
            return Optional.empty();
        }
        Optional<Unit> unit = Units.unit(dimension, text.get()).filter(Unit::isLinear);
        if (unit.isEmpty()) {
            facts.problem(
                    key + ".unit",
                    "%s is no unit of %s; accepted: %s"
                            .formatted(text.get(), Units.words(dimension), linear(dimension)));
        }
        return unit;
    }

    private static String linear(Dimension dimension) {
        return String.join(
                ", ",
                Units.accepted(dimension).stream()
                        .filter(u ->
                                Units.unit(dimension, u).filter(Unit::isLinear).isPresent())
                        .toList());
    }

    private Map<Action, LinkSpec.HttpAct> acts(String name) {
        Map<Action, LinkSpec.HttpAct> acts = new EnumMap<>(Action.class);
        for (Action action : Action.values()) {
            String key = at + ".acts." + action.word();
            if (facts.isGiven(key)) {
                acts.put(
                        action,
                        new LinkSpec.HttpAct(
                                facts.wanted(key + ".method"), path(key + ".path", name), body(key + ".body", name)));
            }
        }
        return acts;
    }

    private Optional<String> body(String key, String name) {
        return facts.tree(key).map(tree -> {
            if (!(tree instanceof Tree.Scalar text)) {
                return JSON.writeValueAsString(Json.of(tree)).replace("{name}", name);
            }
            String body = text.text().replace("{name}", name);
            try {
                JSON.readTree(body);
            } catch (JacksonException e) {
                facts.problem(
                        key, "is not JSON; write a map, for example body: {heat: 0}, or JSON text in single quotes");
            }
            return body;
        });
    }

    private Map<Action, LinkSpec.Proof> proofs() {
        Map<Action, LinkSpec.Proof> proofs = new EnumMap<>(Action.class);
        for (Action action : Action.values()) {
            String key = at + ".proofs." + action.word();
            if (facts.isGiven(key)) {
                ReadName.of(facts.wanted(key + ".read")).ifPresent(read -> {
                    if (!facts.isGiven(at + ".reads." + read.word())) {
                        facts.problem(
                                key + ".read",
                                "%s is not among the reads; map it, for example reads: {%s: {path: /heat, pointer: /%s%s}}"
                                        .formatted(
                                                read.word(),
                                                read.word(),
                                                read.word(),
                                                ReadUnits.needsUnit(read)
                                                        ? ", unit: "
                                                                + Units.accepted(read.dimension())
                                                                        .getFirst()
                                                        : ""));
                    }
                    Dimension step =
                            read.dimension() == Dimension.TEMPERATURE ? Dimension.TEMPERATURE_STEP : read.dimension();
                    proofs.put(
                            action,
                            new LinkSpec.Proof(
                                    read,
                                    is(read, key + ".is"),
                                    tolerance(step, key + ".tolerance"),
                                    facts.wantedQuantity(key + ".within")));
                });
            }
        }
        return proofs;
    }

    private double is(ReadName read, String key) {
        Optional<Tree> tree = facts.tree(key);
        if (tree.isEmpty() || !(tree.get() instanceof Tree.Scalar scalar)) {
            return 0;
        }
        if (ReadUnits.isYesNo(read)) {
            Optional<Boolean> yes = Walk.yesNo(scalar);
            if (yes.isEmpty()) {
                facts.problem(
                        key,
                        scalar.words() + " where true or false is wanted, as " + read.word() + " is either so or not");
            }
            return yes.orElse(false) ? 1 : 0;
        }
        if (read == ReadName.REPORT) {
            facts.problem(key, "the number of a report proves nothing; use another read, for example working");
            return 0;
        }
        return value(read.dimension(), key, scalar);
    }

    private double tolerance(Dimension dimension, String key) {
        Optional<Tree> tree = facts.tree(key);
        if (tree.isEmpty() || !(tree.get() instanceof Tree.Scalar scalar)) {
            return dimension == Dimension.TEMPERATURE_STEP ? TEMPERATURE_TOLERANCE_K : 0;
        }
        double value = value(dimension, key, scalar);
        if (value < 0) {
            facts.problem(key, scalar.text() + " is below 0; a tolerance is 0 or above");
        }
        return Math.max(value, 0);
    }

    private double value(Dimension dimension, String key, Tree.Scalar scalar) {
        try {
            return Units.parse(dimension, key, scalar.text());
        } catch (InputError e) {
            facts.problem(key, String.valueOf(e.getMessage()));
            return 0;
        }
    }

    private Map<String, String> headers() {
        Map<String, String> headers = new LinkedHashMap<>();
        for (String header : facts.namesUnder(at + ".http.headers")) {
            String key = at + ".http.headers." + header;
            if (!header.matches(HEADER_NAME)) {
                facts.problem(key, "is not the name of a header (RFC 9110); write for example Authorization");
                continue;
            }
            Optional<String> env = facts.find(key + ".env");
            Optional<String> file = facts.find(key + ".file");
            if (env.isPresent() == file.isPresent()) {
                facts.problem(key, "needs exactly one of env and file; write for example {env: HERON_TOKEN}");
                continue;
            }
            Optional<String> secret = env.isPresent() ? fromEnvironment(key, env.get()) : fromFile(key, file.get());
            UnaryOperator<String> clean = String::strip;
            secret.map(clean).ifPresent(s -> {
                if (s.isEmpty() || s.chars().anyMatch(c -> c < 0x20 || c > 0x7e)) {
                    facts.problem(
                            key,
                            "comes from a place that is empty or holds characters a header cannot have; put one line of plain text there");
                } else {
                    headers.put(header, s);
                }
            });
        }
        return headers;
    }

    private Optional<String> fromEnvironment(String key, String variable) {
        String value = environment.get(variable);
        if (value == null) {
            facts.problem(
                    key + ".env",
                    "the environment variable %s is not set; set it before starting, or use {file: ...}%s"
                            .formatted(
                                    variable,
                                    Nearest.to(variable, environment.keySet())
                                            .map(n -> " (there is " + n + ")")
                                            .orElse("")));
        }
        return Optional.ofNullable(value);
    }

    private Optional<String> fromFile(String key, String name) {
        try {
            Path file = folder.resolve(name);
            if (!Files.isRegularFile(file) || Files.size(file) > LARGEST_SECRET) {
                facts.problem(key + ".file", "there is no small file " + file + "; put the value there as one line");
                return Optional.empty();
            }
            return Optional.of(Files.readString(file));
        } catch (IOException | InvalidPathException e) {
            facts.problem(key + ".file", "the file cannot be read as UTF-8 text; put the value there as one line");
            return Optional.empty();
        }
    }
}
