# For `.` by the other scripts, from the top folder: panslate_build PRESET [TARGET…]. Quiet unless it fails.
panslate_build() {
  preset=$1
  shift
  mkdir -p "build/$preset"
  log=build/$preset/build.log
  # A build folder made by a checkout elsewhere (moved or copied) cannot be used again.
  if [ -f "build/$preset/CMakeCache.txt" ] &&
    ! grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$(pwd -P)" "build/$preset/CMakeCache.txt"; then
    rm -rf "build/$preset"
    mkdir -p "build/$preset"
  fi
  echo "Building ($preset) ..."
  if ! { cmake --preset "$preset" && cmake --build --preset "$preset" ${1+--target "$@"}; } >"$log" 2>&1 </dev/null; then
    tail -n 60 "$log" >&2
    echo "The build failed; all of its output is in $log" >&2
    exit 1
  fi
}
