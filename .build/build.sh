#!/bin/sh
# Builds the programs without the tests: build.sh HOME JDK. Says what it does; a first build downloads libraries.
set -eu
home=$1
JAVA_HOME=$2
export JAVA_HOME

if command -v mvn >/dev/null 2>&1; then
    maven=mvn
else
    maven="$home/mvnw"
fi

MAVEN_OPTS="${MAVEN_OPTS:-} --sun-misc-unsafe-memory-access=allow"
export MAVEN_OPTS

log="$home/app/target/build.log"
mkdir -p "$home/app/target"
started=$(date +%s)
echo "Building Coldward (once; the first time it downloads its libraries, which takes a minute or two) ..." >&2
if ! (cd "$home" && "$maven" -B -Dquick -DskipTests -Dstyle.color=never package -pl app -am 2>&1) |
    tee "$log" |
    sed -u -n 's/^\[INFO\] Building coldward-\([a-z]*\) .*\(\[[0-9]*\/[0-9]*\]\)$/  \2 \1/p' >&2; then
    :
fi
if ! grep -q "BUILD SUCCESS" "$log"; then
    echo "The build failed; its last words (all of them are in $log):" >&2
    grep -E "^\[ERROR\]|rror:" "$log" | head -n 20 >&2
    exit 4
fi

target="$home/app/target"
printf '%s' "$target/coldward-app.jar" >"$target/classpath"
for jar in "$target"/lib/*.jar; do
    printf ':%s' "$jar" >>"$target/classpath"
done

# The database's native library, unpacked once: otherwise every start unpacks it anew, and a killed one leaves it behind.
# Where the system is none of these the library finds its own way.
rm -rf "$target/native"
mkdir -p "$target/native"
library=""
case "$(uname -s)-$(uname -m)" in
    Linux-x86_64) library="Linux/x86_64/libsqlitejdbc.so" ;;
    Linux-aarch64) library="Linux/aarch64/libsqlitejdbc.so" ;;
    Darwin-x86_64) library="Mac/x86_64/libsqlitejdbc.dylib" ;;
    Darwin-arm64) library="Mac/aarch64/libsqlitejdbc.dylib" ;;
esac
if [ -n "$library" ] && [ ! -e /lib/ld-musl-x86_64.so.1 ] && [ ! -e /lib/ld-musl-aarch64.so.1 ]; then
    (
        cd "$target/native"
        "$JAVA_HOME/bin/jar" --extract --file "$(ls "$target"/lib/sqlite-jdbc-*.jar)" "org/sqlite/native/$library"
        mv "org/sqlite/native/$library" .
        rm -rf org
    )
fi

# An ahead-of-time cache halves the start; without it everything works, only slower.
rm -f "$target/coldward.aot"
"$JAVA_HOME/bin/java" -XX:AOTCacheOutput="$target/coldward.aot" -Xlog:disable -XX:+UseSerialGC -XX:TieredStopAtLevel=1 \
    --enable-native-access=ALL-UNNAMED --sun-misc-unsafe-memory-access=allow \
    -cp "$(cat "$target/classpath")" coldward.app.Main race "$home/.build/warm-up.yaml" --draws 2 --json >/dev/null 2>&1 || true

touch "$target/built"
echo "Built in $(($(date +%s) - started)) s." >&2
