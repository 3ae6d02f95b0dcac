package coldward.proof;

import coldward.model.build.Action;
import coldward.model.shop.ReadName;
import coldward.quantity.Ticker;
import coldward.rig.Shown;
import coldward.rig.SimulatedPrinter;
import coldward.watch.Link;
import coldward.watch.guard.Reads;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;

/** The way to a simulated printer in this process, over event time: looks at it every so often, takes a while to ask. */
final class SimulatedLink implements Link {

    private final SimulatedPrinter printer;
    private final Ticker ticker;
    private final long first;
    private final long every;
    private final long way;
    private long reached;
    private boolean closed;

    /**
     * @param first ns until the first look
     * @param every ns between two looks
     * @param way ns that a request takes to the machine
     */
    SimulatedLink(SimulatedPrinter printer, Ticker ticker, long first, long every, long way) {
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
        Reads.Builder reads = new Reads.Builder()
                .with(ReadName.REPORT, shown.report())
                .with(ReadName.DUTY, shown.commandedShare())
                .with(ReadName.NOZZLE, shown.nozzle())
                .with(ReadName.NOZZLE_TARGET, shown.nozzleTarget() > 0 ? shown.nozzleTarget() : 273.15)
                .with(ReadName.COLD_SIDE, shown.coldSide())
                .with(ReadName.BLOCK_FAN, shown.blockFanShare())
                .with(ReadName.WORKING, shown.feeding() ? 1 : 0)
                .with(ReadName.POWER, shown.powered() ? 1 : 0);
        shown.speed().ifPresent(rpm -> reads.with(ReadName.SPEED, rpm));
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
