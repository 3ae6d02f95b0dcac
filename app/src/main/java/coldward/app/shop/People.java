package coldward.app.shop;

import coldward.links.notices.mail.Mails;
import coldward.links.notices.webhook.Webhooks;
import coldward.model.shop.ChannelSpec;
import coldward.model.shop.NoticeRules;
import coldward.model.shop.QuietHours;
import coldward.model.shop.Shop;
import coldward.quantity.Ticker;
import coldward.watch.Journal;
import coldward.watch.Notices;
import coldward.watch.Watch;
import coldward.watch.notices.Channel;
import coldward.watch.notices.Heartbeat;
import coldward.watch.notices.NoticeBoard;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** The people of one shop and every way to them: channels, notice board and heartbeat. */
final class People implements AutoCloseable {

    private final Shop shop;
    private final Ticker ticker;
    private final Ways ways;
    private final NoticeBoard board;
    private @Nullable Heartbeat heartbeat;

    /** Every channel of a shop, ready to be used; what no channel needs is not even made. */
    static final class Ways implements AutoCloseable {
        private final Optional<Webhooks> webhooks;
        private final Optional<Mails> mails;
        private final List<Channel> channels = new ArrayList<>();

        Ways(NoticeRules rules, Ticker ticker) {
            boolean posts = rules.heartbeat().isPresent()
                    || rules.channels().stream().anyMatch(ChannelSpec.Webhook.class::isInstance);
            boolean writes = rules.channels().stream().anyMatch(ChannelSpec.Mail.class::isInstance);
            webhooks = posts ? Optional.of(new Webhooks(ticker)) : Optional.empty();
            mails = writes
                    ? Optional.of(new Mails(
                            ticker, rules.quiet().map(QuietHours::zone).orElseGet(ZoneId::systemDefault)))
                    : Optional.empty();
            for (ChannelSpec spec : rules.channels()) {
                channels.add(
                        switch (spec) {
                            case ChannelSpec.Webhook webhook ->
                                webhooks.orElseThrow().channel(webhook);
                            case ChannelSpec.Mail mail -> mails.orElseThrow().channel(mail);
                        });
            }
        }

        List<Channel> channels() {
            return List.copyOf(channels);
        }

        /** There where a channel or the heartbeat needs them. */
        Webhooks webhooks() {
            return webhooks.orElseThrow();
        }

        @Override
        public void close() {
            channels.forEach(Channel::close);
            webhooks.ifPresent(Webhooks::close);
            mails.ifPresent(Mails::close);
        }
    }

    /** @param terminal told of everything at once */
    People(Shop shop, Notices terminal, Journal journal, Ticker ticker) {
        this.shop = shop;
        this.ticker = ticker;
        this.ways = new Ways(shop.notices(), ticker);
        this.board = new NoticeBoard(shop.name(), shop.notices(), ways.channels(), terminal, journal, ticker);
    }

    NoticeBoard board() {
        return board;
    }

    /** Begins to send the heartbeat, if the shop has one. */
    void showAlive(Watch watch) {
        shop.notices().heartbeat().ifPresent(spec -> {
            heartbeat = new Heartbeat(
                    ticker,
                    Math.round(spec.every() * 1e9),
                    ways.webhooks()
                            .heartbeat(
                                    spec, shop.name(), () -> UUID.randomUUID().toString(), () -> counts(watch)),
                    board::tell);
        });
    }

    private static Map<String, Long> counts(Watch watch) {
        return watch.views().stream()
                .collect(Collectors.groupingBy(LiveTable::state, TreeMap::new, Collectors.counting()));
    }

    @Override
    public void close() {
        if (heartbeat != null) {
            heartbeat.close();
        }
        board.close();
        ways.close();
    }
}
