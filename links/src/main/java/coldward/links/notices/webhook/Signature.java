package coldward.links.notices.webhook;

import coldward.model.shop.Secret;
import coldward.quantity.OwnBug;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.stream.Collectors;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * Signs requests after RFC 9421 with {@code hmac-sha256} (section 3.3.3), covering the method, the content type and the
 * body's digest (RFC 9530), so that a receiver can tell whose message it is and that nobody changed it.
 */
final class Signature {

    private static final String LABEL = "coldward";

    private Signature() {}

    /**
     * The headers to be added.
     *
     * @param key the shared secret
     * @param seconds when it is signed, s since 1970
     */
    static Map<String, String> headers(Secret key, String contentType, byte[] body, long seconds) {
        String digest = "sha-256=:" + base64(sha256(body)) + ":";
        Map<String, String> covered = new LinkedHashMap<>();
        covered.put("@method", "POST");
        covered.put("content-type", contentType);
        covered.put("content-digest", digest);
        String parameters = "(%s);created=%d;alg=\"hmac-sha256\""
                .formatted(
                        covered.keySet().stream().map(n -> "\"" + n + "\"").collect(Collectors.joining(" ")), seconds);
        String signature = sign(key.value().getBytes(StandardCharsets.US_ASCII), base(covered, parameters));
        Map<String, String> headers = new LinkedHashMap<>();
        headers.put("Content-Digest", digest);
        headers.put("Signature-Input", LABEL + "=" + parameters);
        headers.put("Signature", LABEL + "=:" + signature + ":");
        return headers;
    }

    /** The signature base, RFC 9421 section 2.5. */
    static String base(Map<String, String> covered, String parameters) {
        StringBuilder base = new StringBuilder();
        covered.forEach((name, value) ->
                base.append('"').append(name).append("\": ").append(value).append('\n'));
        return base.append("\"@signature-params\": ").append(parameters).toString();
    }

    static String sign(byte[] key, String base) {
        try {
            Mac mac = Mac.getInstance("HmacSHA256");
            mac.init(new SecretKeySpec(key, "HmacSHA256"));
            return base64(mac.doFinal(base.getBytes(StandardCharsets.UTF_8)));
        } catch (GeneralSecurityException e) {
            throw new OwnBug("every Java platform has HmacSHA256", e);
        }
    }

    private static byte[] sha256(byte[] body) {
        try {
            return MessageDigest.getInstance("SHA-256").digest(body);
        } catch (GeneralSecurityException e) {
            throw new OwnBug("every Java platform has SHA-256", e);
        }
    }

    private static String base64(byte[] bytes) {
        return Base64.getEncoder().encodeToString(bytes);
    }
}
