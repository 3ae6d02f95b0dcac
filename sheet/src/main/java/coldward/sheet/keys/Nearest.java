package coldward.sheet.keys;

import java.util.Collection;
import java.util.Optional;

/** The known word nearest to a misspelt one, by edit distance (insert, delete, replace, swap of neighbours). */
public final class Nearest {

    private Nearest() {}

    /** The nearest of the known words, if one is near enough to have been meant. */
    public static Optional<String> to(String word, Collection<String> known) {
        String best = "";
        int least = Integer.MAX_VALUE;
        String cut = word.length() > 60 ? word.substring(0, 60) : word;
        for (String candidate : known) {
            int distance = distance(simple(cut), simple(candidate));
            if (distance < least) {
                least = distance;
                best = candidate;
            }
        }
        return least <= Math.max(1, Math.max(word.length(), best.length()) / 3) ? Optional.of(best) : Optional.empty();
    }

    private static String simple(String word) {
        return word.toLowerCase(java.util.Locale.ROOT).replace('-', '_').replace(' ', '_');
    }

    /** Optimal string alignment distance. */
    static int distance(String a, String b) {
        int[][] d = new int[a.length() + 1][b.length() + 1];
        for (int i = 0; i <= a.length(); i++) {
            for (int j = 0; j <= b.length(); j++) {
                if (i == 0 || j == 0) {
                    d[i][j] = i + j;
                    continue;
                }
                int replaced = d[i - 1][j - 1] + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
                d[i][j] = Math.min(replaced, 1 + Math.min(d[i - 1][j], d[i][j - 1]));
                if (i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1)) {
                    d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
                }
            }
        }
        return d[a.length()][b.length()];
    }

    /** {@code : did you mean X?} or the list of what is known. */
    public static String hint(String word, Collection<String> known) {
        return to(word, known).map(n -> "did you mean " + n + "?").orElse("known here: " + String.join(", ", known));
    }
}
