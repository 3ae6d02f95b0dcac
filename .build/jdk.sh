# Sets JDK to the home of a JDK of at least version 25, or says what to install.

# Folders that hold JDKs, looked at after JAVA_HOME, PATH and the user's own; another list may be set outside.
usual_places='/usr/lib/jvm/* /usr/java/* /opt/java/* /opt/jdk*
    /Library/Java/JavaVirtualMachines/*/Contents/Home /opt/homebrew/opt/openjdk*/libexec/openjdk.jdk/Contents/Home'

jdk_version() {
    # major version from the release file; prints nothing where there is none
    [ -f "$1/release" ] && [ -x "$1/bin/javac" ] || return 0
    sed -n 's/^JAVA_VERSION="\([0-9]*\).*/\1/p' "$1/release"
}

find_jdk() {
    on_path=$(command -v javac 2>/dev/null || true)
    if [ -n "$on_path" ]; then
        on_path=$(dirname "$(dirname "$(readlink -f "$on_path" 2>/dev/null || printf '%s' "$on_path")")")
    fi
    # shellcheck disable=SC2086
    for candidate in "${JAVA_HOME:-}" "$on_path" "${HOME:-}"/.jdks/* "${HOME:-}"/.sdkman/candidates/java/* \
        ${COLDWARD_JDK_PLACES-$usual_places}; do
        [ -n "$candidate" ] && [ -d "$candidate" ] || continue
        version=$(jdk_version "$candidate")
        if [ -n "$version" ] && [ "$version" -ge 25 ]; then
            JDK=$candidate
            return 0
        fi
    done
    cat >&2 <<'MESSAGE'
Coldward needs a JDK of version 25 or newer and found none (looked at JAVA_HOME, PATH and the usual folders).
Install one, for example:
  Debian, Ubuntu:  apt install openjdk-25-jdk   (or an OpenJDK 25 build from your vendor)
  macOS:           brew install openjdk
  any system:      unpack an OpenJDK 25 build and set JAVA_HOME to its folder
MESSAGE
    return 1
}
