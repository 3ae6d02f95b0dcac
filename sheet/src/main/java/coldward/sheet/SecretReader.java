package coldward.sheet;

import coldward.model.shop.Secret;
import coldward.sheet.keys.Nearest;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermission;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Fetches secrets from where a shop file says they are kept: an environment variable, or a file that only its owner may
 * read. A value never gets into a finding.
 */
final class SecretReader {

    private static final long LARGEST = 8192;
    private static final Set<PosixFilePermission> FOREIGN = Set.of(
            PosixFilePermission.GROUP_READ,
            PosixFilePermission.GROUP_WRITE,
            PosixFilePermission.OTHERS_READ,
            PosixFilePermission.OTHERS_WRITE);

    private final ShopFacts facts;
    private final Path folder;
    private final Map<String, String> environment;

    SecretReader(ShopFacts facts, Path folder, Map<String, String> environment) {
        this.facts = facts;
        this.folder = folder;
        this.environment = environment;
    }

    /** The secret that a map at a path refers to; what is wrong with it is noted. */
    Optional<Secret> at(String path) {
        Optional<String> env = facts.find(path + ".env");
        Optional<String> file = facts.find(path + ".file");
        if (env.isPresent() == file.isPresent()) {
            facts.problem(path, "needs exactly one of env and file; write for example {env: PAGER_TOKEN}");
            return Optional.empty();
        }
        Optional<String> text = env.isPresent() ? variable(path, env.get()) : file(path, file.get());
        return text.map(String::strip).flatMap(s -> {
            if (s.isEmpty() || s.chars().anyMatch(c -> c < 0x20 || c > 0x7e)) {
                facts.problem(
                        path,
                        "comes from a place that is empty or holds more than one line of plain text; put one line there");
                return Optional.empty();
            }
            return Optional.of(new Secret(s));
        });
    }

    private Optional<String> variable(String path, String variable) {
        String value = environment.get(variable);
        if (value == null) {
            facts.problem(
                    path + ".env",
                    "the environment variable %s is not set; set it before starting, or use {file: ...}%s"
                            .formatted(
                                    variable,
                                    Nearest.to(variable, environment.keySet())
                                            .map(n -> " (there is " + n + ")")
                                            .orElse("")));
        }
        return Optional.ofNullable(value);
    }

    private Optional<String> file(String path, String name) {
        try {
            Path file = folder.resolve(name);
            if (!Files.isRegularFile(file) || Files.size(file) > LARGEST) {
                facts.problem(path + ".file", "there is no small file " + file + "; put the value there as one line");
                return Optional.empty();
            }
            PosixFileAttributeView view = Files.getFileAttributeView(file, PosixFileAttributeView.class);
            if (view != null && view.readAttributes().permissions().stream().anyMatch(FOREIGN::contains)) {
                facts.problem(
                        path + ".file",
                        "the file %s may be read or changed by others; take their permission away: chmod 600 %s"
                                .formatted(file, file));
                return Optional.empty();
            }
            return Optional.of(Files.readString(file));
        } catch (IOException | InvalidPathException e) {
            facts.problem(path + ".file", "the file cannot be read as UTF-8 text; put the value there as one line");
            return Optional.empty();
        }
    }
}
