package coldward.links.http;

import coldward.links.http.RawServer.Manner;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.atomic.AtomicLong;

/** Ways to serve a machine's state: one right, the others wrong. */
final class Manners {

    private static final AtomicLong NUMBER = new AtomicLong();

    private Manners() {}

    /** A printer whose fan turns at a speed. */
    static Manner turning(double rpm) {
        return (server, request, out, socket) -> RawServer.send(
                out,
                "200 OK",
                "application/json",
                request.path().endsWith("/heat")
                        ? "{\"nozzle_degC\": 235.0, \"target_degC\": 235}"
                        : "{\"fan\": {\"speed_rpm\": " + rpm + ", \"duty\": 100, \"report\": "
                                + NUMBER.incrementAndGet() + "}, \"feeding\": true}");
    }

    static Manner silentAfterAccepting() {
        return (server, request, out, socket) -> server.pause(60_000);
    }

    static Manner dripping(long millis) {
        return (server, request, out, socket) -> {
            out.write("HTTP/1.1 200 OK\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n"
                    .getBytes(StandardCharsets.US_ASCII));
            for (int i = 0; i < 1000; i++) {
                out.write(' ');
                out.flush();
                server.pause(millis);
            }
        };
    }

    static Manner resetWithinBody() {
        return (server, request, out, socket) -> {
            out.write("HTTP/1.1 200 OK\r\nContent-Length: 1000\r\n\r\n{\"fan\": {\"speed"
                    .getBytes(StandardCharsets.US_ASCII));
            out.flush();
            // a linger of 0 closes with a reset (RFC 9293 section 3.6.1, RST)
            socket.setSoLinger(true, 0);
            socket.close();
        };
    }

    static Manner endless() {
        return (server, request, out, socket) -> {
            out.write("HTTP/1.1 200 OK\r\nContent-Type: application/json\r\n\r\n[".getBytes(StandardCharsets.US_ASCII));
            byte[] zeros = "0,".repeat(4096).getBytes(StandardCharsets.US_ASCII);
            for (int i = 0; i < 100_000; i++) {
                out.write(zeros);
                out.flush();
                server.pause(1);
            }
        };
    }

    /** Everything wrong that is only a matter of what is said. */
    static Map<String, Manner> wrongAnswers() {
        Map<String, Manner> wrong = new LinkedHashMap<>();
        wrong.put(
                "status 500",
                (s, r, out, k) -> RawServer.send(
                        out, "500 Internal Server Error", "application/json", "{\"fan\": {\"speed_rpm\": 8000}}"));
        wrong.put(
                "html",
                (s, r, out, k) ->
                        RawServer.send(out, "200 OK", "text/html", "<html><body>Please sign in</body></html>"));
        wrong.put("empty", RawServer.json(""));
        wrong.put("truncated", RawServer.json("{\"fan\": {\"speed_rpm\": 80"));
        wrong.put("two documents", RawServer.json("{\"fan\": 1} {\"fan\": 2}"));
        wrong.put("deep", RawServer.json("[".repeat(20_000) + "]".repeat(20_000)));
        wrong.put("text for a number", RawServer.json(fan("\"8000\"")));
        wrong.put("object for a number", RawServer.json(fan("{}")));
        wrong.put("null speed", RawServer.json(fan("null")));
        wrong.put("not a number", RawServer.json(fan("NaN")));
        wrong.put("no speed", RawServer.json("{\"fan\": {}}"));
        wrong.put("absurd speed", RawServer.json(fan("200001")));
        wrong.put("negative speed", RawServer.json(fan("-1")));
        wrong.put("infinite speed", RawServer.json(fan("1e999")));
        wrong.put("number of many digits", RawServer.json(fan("8".repeat(5000))));
        wrong.put("huge", RawServer.json("{\"padding\": \"" + "x".repeat(JsonText.MOST_BYTES) + "\"}"));
        wrong.put("redirect", (s, r, out, k) -> {
            out.write(("HTTP/1.1 302 Found\r\nLocation: " + s.base() + "/elsewhere\r\nContent-Length: 0\r\n\r\n")
                    .getBytes(StandardCharsets.US_ASCII));
            out.flush();
        });
        wrong.put("not http", (s, r, out, k) -> {
            out.write("fan 8000 rpm\r\n\r\n".getBytes(StandardCharsets.US_ASCII));
            out.flush();
            k.close();
        });
        return wrong;
    }

    private static String fan(String speed) {
        return "{\"fan\": {\"speed_rpm\": " + speed
                + ", \"duty\": 100, \"report\": 1}, \"feeding\": true, \"nozzle_degC\": 235, \"target_degC\": 235}";
    }
}
