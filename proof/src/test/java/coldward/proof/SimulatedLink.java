package coldward.proof;

import coldward.model.build.Action;
import coldward.model.shop.ReadName;
import coldward.quantity.Ticker;
import coldward.rig.Shown;
import coldward.rig.SimulatedPrinter;
import coldward.watch.Link;
import coldward.watch.guard.Reads;
import java.util.EnumMap;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;

/** The way to a simulated printer in this process, over event time: looks at it every so often, takes a while to ask. */
final class SimulatedLink implements Link {

    private final SimulatedPrinter printer;
    private final Ticker ticker;
    private final long first;
    private final long every;
    private final long way;
    private final Set<ReadName> hidden;
    private long reached;
    private boolean closed;

    /**
     * @param first ns until the first look
     * @param every ns between two looks
     * @param way ns that a request takes to the machine
     * @param hidden reads that are not mapped
     */
    SimulatedLink(SimulatedPrinter printer, Ticker ticker, long first, long every, long way, Set<ReadName> hidden) {
        this.hidden = Set.copyOf(hidden);
        this.printer = printer;
        this.ticker = ticker;
        this.first = first;
        this.every = every;
        this.way = way;
    }

    /** The printer at this moment. */
    SimulatedPrinter now() {
        long step = ticker.nanos() - reached;
        if (step > 0) {
            printer.advance(step / 1e9);
            reached += step;
        }
        return printer;
    }

    @Override
    public void start(Listener listener) {
        ticker.after(first, () -> look(listener));
    }

    private void look(Listener listener) {
        if (closed) {
            return;
        }
        Shown shown = now().shown();
        Reads.Builder reads = new Reads.Builder();
        Map<ReadName, Double> all = new EnumMap<>(ReadName.class);
        all.put(ReadName.REPORT, (double) shown.report());
        all.put(ReadName.DUTY, shown.commandedShare());
        all.put(ReadName.NOZZLE, shown.nozzle());
        all.put(ReadName.NOZZLE_TARGET, shown.nozzleTarget() > 0 ? shown.nozzleTarget() : 273.15);
        all.put(ReadName.COLD_SIDE, shown.coldSide());
        all.put(ReadName.BLOCK_FAN, shown.blockFanShare());
        all.put(ReadName.WORKING, shown.feeding() ? 1.0 : 0.0);
        all.put(ReadName.POWER, shown.powered() ? 1.0 : 0.0);
        shown.speed().ifPresent(rpm -> all.put(ReadName.SPEED, rpm));
        all.keySet().removeAll(hidden);
        all.forEach(reads::with);
        listener.observed(new Observation(ticker.nanos(), reads.build()));
        ticker.after(every, () -> look(listener));
    }

    @Override
    public CompletionStage<Answer> request(Action action) {
        CompletableFuture<Answer> answer = new CompletableFuture<>();
        ticker.after(way, () -> {
            now().act(action);
            answer.complete(new Answer.Taken());
        });
        return answer;
    }

    @Override
    public String place() {
        return "this process";
    }

    @Override
    public void close() {
        closed = true;
    }
}
