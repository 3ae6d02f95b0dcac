package coldward.model.wiring;

/** What a contact is on its board, fan or part. One contact may wrongly have several. */
public sealed interface Use {

    /** What it is, in words. */
    String words();

    /** Joined to ground. */
    record Ground(Board board) implements Use {
        @Override
        public String words() {
            return "ground";
        }
    }

    /** Joined to a rail. */
    record OnRail(Board board, Rail rail) implements Use {
        @Override
        public String words() {
            return rail.name();
        }
    }

    /** The plus of a port. */
    record PortPlus(Board board, Port port) implements Use {
        @Override
        public String words() {
            return port.name() + " +";
        }
    }

    /** The minus of a port. */
    record PortMinus(Board board, Port port) implements Use {
        @Override
        public String words() {
            return port.name() + " \u2212";
        }
    }

    /** A logic input. */
    record AtInput(Board board, Input input) implements Use {
        @Override
        public String words() {
            return input.name();
        }
    }

    /** A lead of the fan. */
    record FanLead(ContactId lead) implements Use {
        @Override
        public String words() {
            return lead.number();
        }
    }

    /** An end of a part. */
    record PartEnd(Part part, String end) implements Use {
        @Override
        public String words() {
            return end;
        }
    }
}
