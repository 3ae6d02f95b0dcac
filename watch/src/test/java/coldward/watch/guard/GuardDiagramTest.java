package coldward.watch.guard;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

class GuardDiagramTest {

    private static final Pattern ARROW = Pattern.compile("^ +(\\w+) --> (\\w+): (.+)$", Pattern.MULTILINE);

    @Test
    void drawing_shows_the_transitions_and_no_other() throws Exception {
        String page = Files.readString(Path.of("..", "docs", "guard.md"));
        Set<String> drawn = ARROW.matcher(page)
                .results()
                .map(m -> m.group(1) + " -> " + m.group(2) + ": " + m.group(3))
                .collect(Collectors.toSet());
        Set<String> data = Arrays.stream(Transition.values())
                .map(t -> t.from().word() + " -> " + t.to().word() + ": " + t.why())
                .collect(Collectors.toSet());
        assertThat(drawn).isEqualTo(data);
        assertThat(page).contains("[*] --> " + GuardState.begin(0).fan().word());
    }

    @Test
    void every_state_can_be_reached_and_left() {
        Set<FanState> reached = EnumSet.of(GuardState.begin(0).fan());
        for (int i = 0; i < FanState.values().length; i++) {
            Set<FanState> more = EnumSet.copyOf(reached);
            reached.forEach(s -> more.addAll(Transition.next(s)));
            reached = more;
        }
        assertThat(reached).containsExactlyInAnyOrder(FanState.values());
        assertThat(FanState.values())
                .allSatisfy(s -> assertThat(Transition.next(s)).isNotEmpty().doesNotContain(s));
    }

    @Test
    void a_trip_is_left_only_by_release_and_never_follows_rest() {
        assertThat(Transition.next(FanState.TRIPPED)).containsExactly(FanState.RESTING);
        assertThat(Transition.legal(FanState.RESTING, FanState.TRIPPED)).isFalse();
        assertThat(Transition.legal(FanState.STARTING, FanState.TRIPPED)).isFalse();
    }
}
