package coldward.watch;

import coldward.model.build.Action;
import coldward.model.shop.ReadName;
import coldward.quantity.Ticker;
import coldward.watch.guard.Reads;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import org.jspecify.annotations.Nullable;

/** A machine and the link to it in one, over event time: reports twice a second and does what it is told, or not. */
final class FakeMachine implements Link {

    static final long S = 1_000_000_000L;
    static final long REPORT_EVERY = S / 2;

    private final Ticker ticker;
    final Map<ReadName, Double> values = new EnumMap<>(ReadName.class);
    final List<Action> requested = new ArrayList<>();
    final List<Long> requestedAt = new ArrayList<>();
    final Set<Action> deaf = EnumSet.noneOf(Action.class);
    final Set<Action> refuses = EnumSet.noneOf(Action.class);
    boolean reachable = true;
    boolean closed;
    String place = "localhost:7070";
    private @Nullable Listener listener;
    private long reports;

    FakeMachine(Ticker ticker) {
        this.ticker = ticker;
        values.put(ReadName.SPEED, 8000.0);
        values.put(ReadName.DUTY, 1.0);
        values.put(ReadName.NOZZLE, 508.15);
        values.put(ReadName.NOZZLE_TARGET, 508.15);
        values.put(ReadName.WORKING, 1.0);
        values.put(ReadName.BLOCK_FAN, 0.0);
        values.put(ReadName.POWER, 1.0);
    }

    @Override
    public void start(Listener to) {
        listener = to;
        report();
    }

    private void report() {
        Listener to = listener;
        if (closed || to == null) {
            return;
        }
        if (reachable) {
            values.put(ReadName.REPORT, (double) reports++);
            to.observed(new Observation(ticker.nanos(), Reads.of(values)));
        } else {
            to.troubled(new Trouble(Trouble.Kind.UNREACHABLE, "no connection"));
        }
        ticker.after(REPORT_EVERY, this::report);
    }

    @Override
    public CompletionStage<Answer> request(Action action) {
        requested.add(action);
        requestedAt.add(ticker.nanos());
        CompletableFuture<Answer> answer = new CompletableFuture<>();
        ticker.after(S / 50, () -> {
            if (!reachable) {
                answer.complete(new Answer.Failed("no connection"));
            } else if (refuses.contains(action)) {
                answer.complete(new Answer.Refused("status 404"));
            } else {
                answer.complete(new Answer.Taken());
                if (!deaf.contains(action)) {
                    ticker.after(S / 10, () -> does(action));
                }
            }
        });
        return answer;
    }

    private void does(Action action) {
        switch (action) {
            case HEATER_OFF -> values.put(ReadName.NOZZLE_TARGET, 273.15);
            case HOLD -> values.put(ReadName.WORKING, 0.0);
            case BLOCK_FAN -> values.put(ReadName.BLOCK_FAN, 1.0);
            case POWER_OFF -> values.put(ReadName.POWER, 0.0);
        }
    }

    void speed(double rpm) {
        values.put(ReadName.SPEED, rpm);
    }

    long count(Action action) {
        return requested.stream().filter(a -> a == action).count();
    }

    @Override
    public String place() {
        return place;
    }

    @Override
    public void close() {
        closed = true;
    }
}
