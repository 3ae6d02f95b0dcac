package coldward.figures;

final class RaceText {
    private final RaceScene scene;
    private final TextOptions options;

    RaceText(RaceScene scene, TextOptions options) {
        this.scene = scene;
        this.options = options;
    }

    String lines() {
        return scene.title() + options.width();
    }
}
