# The hands of the demo: starts and stops the programs, presses the gauges, and waits for what the daemon tells of it.
# Sourced by simulators/demo, which sets `work` (a folder of its own) and `PATH`.

die() {
  echo "demo: $*" >&2
  [[ ! -s $work/tenthd.log ]] || { echo "the end of $work/tenthd.log:" >&2; tail -5 "$work/tenthd.log" >&2; }
  exit 1
}

caption() { printf '\n== %s\n' "$*"; }

# Shows a command of `tenth` as it is typed, and its answer.
show() { printf '\n$ tenth'; printf ' %q' "$@"; echo; tenth "$@"; }

# Like show, for a command whose exit status says something: expect STATUS COMMAND ...
expect() {
  local wanted=$1 status=0
  shift
  show "$@" || status=$?
  [[ $status == "$wanted" ]] || die "'tenth $*' ended with $status instead of $wanted"
}

# A command of `tenth` that is not worth a look.
quietly() { tenth "$@" >"$work/last-answer" || { cat "$work/last-answer" >&2; die "'tenth $*' failed"; }; }

start_programs() {
  # A simulated thumb presses faster than any hand and does not bounce.
  printf '[intake]\nsettle_ms = 20\n' >"$work/tenthd.toml"
  tenthd --config "$work/tenthd.toml" --state "$work/state" --socket "$TENTH_SOCKET" 2>"$work/tenthd.log" &
  daemon=$!
  until tenth status >"$work/last-answer" 2>&1; do
    kill -0 "$daemon" 2>/dev/null || die "tenthd did not start"
    sleep 0.05
  done
  coproc THUMB { exec tenth-sim demo-engine/bench.toml --dir "$work/ports" --control - 2>"$work/tenth-sim.log"; }
  simulator=$THUMB_PID
  read -r -t 10 answer <&"${THUMB[0]}" && [[ $answer == ready ]] || die "tenth-sim did not start"
  exec 3< <(exec tenth watch --json)
  watcher=$!
  next_event
}

# Ends what was started, in order; also after a failure.
stop_programs() {
  for process in ${watcher-} ${simulator-} ${daemon-}; do
    kill "$process" 2>/dev/null && wait "$process" 2>/dev/null
  done
  watcher='' simulator='' daemon=''
}

next_event() { read -r -t 30 event <&3 || die "the daemon told nothing for 30 s"; }

# What stands under a key of the last event, without quotes.
field() {
  local pattern="\"$1\":(\"([^\"]*)\"|[^,}]*)"
  [[ $event =~ $pattern ]] || return 0
  echo "${BASH_REMATCH[2]:-${BASH_REMATCH[1]}}"
}

# Waits for an event of a kind and a gauge; a third word is the state it must tell.
await() {
  while :; do
    next_event
    [[ $(field event) == "$1" && $(field gauge) == "$2" && (-z ${3-} || $(field state) == "$3") ]] && return
  done
}

# Presses the data button of a gauge: the next of its values in demo-engine/bench.toml.
press() {
  echo "press $1" >&"${THUMB[1]}"
  read -r -t 10 answer <&"${THUMB[0]}" || die "tenth-sim does not answer"
  [[ $answer == ok* ]] || die "tenth-sim: $answer"
}

plug_in() {
  show gauge add "$1" --port "$work/ports/$1" "${@:2}"
  await gauge "$1" open
}

set_on() {
  show master "$1" "$2"
  press "$1"
  await setting "$1"
}

recheck() {
  quietly recheck "$1"
  press "$1"
  await setting "$1"
  [[ $(field good) == true ]] || die "$1 has drifted"
  echo "  $1: back on its master, drift $(field drift_mm) mm: good"
}

# A suspect reading is looked at, voided, and its place measured again.
measure_again() {
  local seq=$1
  printf '\r\e[K'
  caption "Held as suspect: $(field gauge) sent $(field text) at $(field feature) $(field index) $(field level) $(field axis)"
  echo "   The place has not moved on. The thimble was a turn (0.025 in) out: void it and measure again."
  show readings --feature "$(field feature)" --index "$(field index)" --all
  show void "$seq" --reason "thimble read a turn too high"
}

# Measures with these gauges at once, each along its own round, until every round has ended. Each press waits until the
# reading of the one before is stored and the gauge's next place is told.
measure() {
  local -A left=() busy=()
  local gauge count=0
  for gauge in "$@"; do left[$gauge]=1; done
  while [[ ${#left[@]} -gt 0 ]]; do
    busy=()
    for gauge in "${!left[@]}"; do press "$gauge" && busy[$gauge]=pressed; done
    while [[ ${#busy[@]} -gt 0 ]]; do
      next_event
      gauge=$(field gauge)
      case $(field event) in
        reading)
          count=$((count + 1))
          progress "$count"
          busy[$gauge]=stored
          [[ $(field state) == kept ]] || { measure_again "$(field seq)"; unset "busy[$gauge]"; }
          ;;
        place)
          [[ ${busy[$gauge]-} == stored ]] || continue
          [[ $(field feature) != null ]] || unset "left[$gauge]"
          unset "busy[$gauge]"
          ;;
        fault) die "a fault: $event" ;;
      esac
    done
  done
  printf '\r\e[K  %s readings stored by %s\n' "$count" "$*"
}

# The last reading, on one line that the next overwrites; nothing where nobody looks.
progress() {
  [[ ! -t 1 ]] || printf '\r\e[K  %4s  %-14s %s' "$1" "$(field text)" "$(field feature) $(field label) $(field level) $(field axis)"
}
