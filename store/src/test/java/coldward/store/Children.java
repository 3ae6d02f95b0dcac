package coldward.store;

import coldward.watch.Journal.Entry;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Programs that tests start as processes of their own, so that they can be killed or limited. */
final class Children {

    private Children() {}

    /** Starts one of the programs below in a Java of its own. */
    static Process start(String limit, Class<?> program, Object... arguments) throws IOException {
        List<String> java = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx96m",
                "-XX:TieredStopAtLevel=1",
                "--enable-native-access=ALL-UNNAMED",
                "-cp",
                System.getProperty("java.class.path"),
                program.getName()));
        for (Object argument : arguments) {
            java.add(argument.toString());
        }
        List<String> command = new ArrayList<>(java);
        if (!limit.isEmpty()) {
            command = new ArrayList<>(List.of("/bin/sh", "-c", limit + "; exec \"$@\"", "sh"));
            command.addAll(java);
        }
        return new ProcessBuilder(command)
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
    }

    static Entry entry(String printer, String kind, long count) {
        return new Entry(
                1_700_000_000_000L + count, printer, kind, new TreeMap<>(Map.of("count", count, "note", "n" + count)));
    }

    /** Appends without end from two threads and says each number and hash once it is kept. */
    static final class Appending {
        public static void main(String[] arguments) throws Exception {
            StateFolder folder = StateFolder.open(Path.of(arguments[0]));
            SqliteJournal journal = SqliteJournal.open(folder);
            say("open");
            Thread.ofPlatform().start(() -> endlessly(journal, "robin"));
            endlessly(journal, "heron");
        }

        private static void endlessly(SqliteJournal journal, String printer) {
            for (long i = 1; ; i++) {
                List<java.util.concurrent.CompletableFuture<?>> burst = new ArrayList<>();
                for (int k = 0; k < 1 + i % 5; k++) {
                    burst.add(journal.append(entry(printer, "trip", i))
                            .thenAccept(kept -> say(kept.number() + " " + kept.hash()))
                            .toCompletableFuture());
                }
                burst.forEach(java.util.concurrent.CompletableFuture::join);
            }
        }

        private static void say(String line) {
            synchronized (Appending.class) {
                System.out.println(line);
                System.out.flush();
            }
        }
    }

    /** Appends large entries until the disk refuses, says why, and how many were kept. */
    static final class Filling {
        public static void main(String[] arguments) {
            StateFolder folder = StateFolder.open(Path.of(arguments[0]));
            long kept = 0;
            int refused = 0;
            try (SqliteJournal journal = SqliteJournal.open(folder)) {
                String large = "x".repeat(200_000);
                while (refused < 2) {
                    try {
                        journal.append(new Entry(1, "heron", "filling", new TreeMap<>(Map.of("large", large))))
                                .toCompletableFuture()
                                .join();
                        kept++;
                    } catch (java.util.concurrent.CompletionException e) {
                        refused++;
                        Throwable cause = e.getCause();
                        System.out.println(cause == null ? "no cause" : cause.getMessage());
                    }
                }
            }
            System.out.println("kept " + kept);
        }
    }

    /** Takes a state folder, says so or why not, and holds it until killed. */
    static final class Holding {
        public static void main(String[] arguments) throws Exception {
            StateFolder held;
            try {
                held = StateFolder.open(Path.of(arguments[0]));
            } catch (coldward.quantity.CannotRun e) {
                System.out.println(e.getMessage());
                return;
            }
            System.out.println("held");
            System.in.read();
            held.close();
        }
    }
}
