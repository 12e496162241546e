# The hands of the demo: starts and stops the programs, presses the gauges, and waits for what the daemon tells of it.
# Sourced by simulators/demo, which sets `work` (a folder of its own) and `PATH`.

die() {
  echo "demo: $*" >&2
  [[ ! -s $work/tenthd.log ]] || { echo "the end of $work/tenthd.log:" >&2; tail -5 "$work/tenthd.log" >&2; }
  exit 1
}

caption() { printf '\n== %s\n' "$*"; }

# Shows a command of `tenth` as it is typed, and its answer.
show() {
  local word
  printf '\n$ tenth'
  for word in "$@"; do [[ $word == *[\ \;]* ]] && printf " '%s'" "$word" || printf ' %s' "$word"; done
  echo
  tenth "$@"
}

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
  # The simulated thumbs are faster than any hand, and none bounces.
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
  expecting hello
  next_event
}

# Ends what was started, in order; also after a failure.
stop_programs() {
  for process in ${watcher-} ${daemon-} ${simulator-}; do
    kill "$process" 2>/dev/null && wait "$process" 2>/dev/null || true
  done
  watcher='' simulator='' daemon=''
}

declare -A told=()  # the last event: its keys and values, those without quotes that have none, and empty for null

# Every event is one flat object on a line, so a pattern is enough to take it apart.
next_event() {
  local rest pattern='"([a-z_0-9]+)":("([^"]*)"|\[[^]]*\]|[^,}]*)'
  read -r -t 60 rest <&3 && [[ $SECONDS -lt $patience ]] || die "waited 60 s for $awaited; the last event: ${told[*]}"
  told=()
  while [[ $rest =~ $pattern ]]; do
    told[${BASH_REMATCH[1]}]=${BASH_REMATCH[3]:-${BASH_REMATCH[2]#null}}
    rest=${rest#*"${BASH_REMATCH[0]}"}
  done
}

# Waits for an event of a kind and a gauge; a third word is the state it must tell.
await() {
  expecting "$1 of $2 ${3-}"
  while :; do
    next_event
    [[ ${told[event]} == "$1" && ${told[gauge]-} == "$2" && (-z ${3-} || ${told[state]} == "$3") ]] && return
  done
}

expecting() { awaited=$1 patience=$((SECONDS + 60)); }

# Presses the data button of a gauge: the next of its values in demo-engine/bench.toml.
press() {
  echo "press $1" >&"${THUMB[1]}"
  read -r -t 10 answer <&"${THUMB[0]}" || die "tenth-sim does not answer"
  [[ $answer == ok* ]] || die "tenth-sim: $answer"
}

# plug_in GAUGE --profile PROFILE ...
plug_in() {
  quietly gauge add "$1" --port "$work/ports/$1" "${@:2}"
  await gauge "$1" open
  echo "  and $1, which speaks $3"
}

set_on() {
  quietly master "$1" "$2"
  press "$1"
  await setting "$1"
  echo "  $1: set on its master of $2 in"
}

recheck() {
  quietly recheck "$1"
  press "$1"
  await setting "$1"
  [[ ${told[good]} == true ]] || die "$1 has drifted by ${told[drift_mm]} mm"
  echo "  $1: back on its master, good"
}

# A suspect reading is looked at, voided, and its place measured again.
measure_again() {
  [[ ${told[doubts]} == '["turn"]' ]] || die "held as suspect without a slip: reading ${told[seq]}, ${told[doubts]}"
  clear_line
  caption "Held as suspect: ${told[gauge]} sent ${told[text]} at $place"
  echo "   The place has not moved on. The thimble was a turn (0.025 in) out:"
  echo "   the reading is voided, and the place measured again."
  show readings --feature "${told[feature]}" --index "${told[label]}" --all
  show void "${told[seq]}" --reason 'thimble a turn too high'
  echo
}

# Measures with these gauges at once, each along its own round, until every round has ended. Each press waits until the
# reading of the one before is stored and the gauge's next place is told.
measure() {
  local -A left=() busy=()
  local gauge place count=0
  for gauge in "$@"; do left[$gauge]=1; done
  while [[ ${#left[@]} -gt 0 ]]; do
    busy=()
    sleep 0.03  # the pace of the hands
    for gauge in "${!left[@]}"; do press "$gauge" && busy[$gauge]=pressed; done
    expecting "readings of ${!busy[*]}"
    while [[ ${#busy[@]} -gt 0 ]]; do
      next_event
      gauge=${told[gauge]:-none}
      [[ -n ${busy[$gauge]-} ]] || continue
      case ${told[event]} in
        reading)
          count=$((count + 1))
          place="${told[feature]} ${told[label]} ${told[level]} ${told[axis]}"
          progress
          busy[$gauge]=stored
          [[ ${told[state]} == kept ]] || { measure_again; unset "busy[$gauge]"; }
          ;;
        place)
          [[ ${busy[$gauge]-} == stored ]] || continue
          [[ -n ${told[feature]} ]] || unset "left[$gauge]"
          unset "busy[$gauge]"
          ;;
        fault) die "a fault from $gauge: ${told[text]}" ;;
      esac
    done
  done
  clear_line
  echo "  $count readings stored from $*"
}

# The last reading, on one line that the next overwrites; nothing where nobody looks.
progress() { [[ ! -t 1 ]] || printf '\r\e[K  %4s  %-14s %s' "$count" "${told[text]}" "$place"; }
clear_line() { [[ ! -t 1 ]] || printf '\r\e[K'; }
