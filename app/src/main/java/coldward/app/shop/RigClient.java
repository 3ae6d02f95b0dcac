package coldward.app.shop;

import coldward.quantity.CannotRun;
import coldward.quantity.DataError;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Duration;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Talks to a running rig as a person at its machines would: fails a fan, mends it, looks at the truth. */
public final class RigClient implements AutoCloseable {

    /** Where the sample shop's rig listens. */
    public static final String USUAL = "http://localhost:7070";

    private static final Duration PATIENCE = Duration.ofSeconds(5);
    private static final int OK = 200;
    private static final JsonMapper JSON = JsonMapper.builder().build();

    private final String base;
    private final HttpClient client = HttpClient.newBuilder()
            .version(HttpClient.Version.HTTP_1_1)
            .connectTimeout(PATIENCE)
            .build();

    public RigClient(String base) {
        this.base = base;
    }

    /** Reads. */
    public JsonNode get(String path) {
        return send(HttpRequest.newBuilder(uri(path)).timeout(PATIENCE).GET().build());
    }

    /** Asks for something; the body is JSON text or empty. */
    public JsonNode post(String path, String body) {
        return send(HttpRequest.newBuilder(uri(path))
                .timeout(PATIENCE)
                .header("Content-Type", "application/json")
                .POST(body.isEmpty()
                        ? HttpRequest.BodyPublishers.noBody()
                        : HttpRequest.BodyPublishers.ofString(body))
                .build());
    }

    private URI uri(String path) {
        try {
            return URI.create(base + path);
        } catch (IllegalArgumentException e) {
            throw new DataError("--rig", 0, "", "'" + base + path + "' is no URL; for example " + USUAL);
        }
    }

    private JsonNode send(HttpRequest request) {
        try {
            HttpResponse<String> answer = client.send(request, HttpResponse.BodyHandlers.ofString());
            JsonNode json = JSON.readTree(answer.body());
            if (answer.statusCode() != OK) {
                throw new DataError(
                        "rig " + base, 0, "", json.path("error").asString("answered " + answer.statusCode()));
            }
            return json;
        } catch (IOException | tools.jackson.core.JacksonException e) {
            throw new CannotRun(
                    "no rig answers at " + base + "; start one with coldward open or coldward rig SHOP", e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CannotRun("interrupted while asking the rig", e);
        }
    }

    @Override
    public void close() {
        client.close();
    }
}
