#!/usr/bin/env bash
# A study in four parts as a Slurm job array, merged, beside the same study in one run: the bytes must be the same.
#   tests/recipes/slurm.sh [PROGRAM]
# It needs the Debian packages slurm-wlm and munge, and root: it starts munged, slurmctld and slurmd on this machine from
# nothing, in a folder of its own, and ends what it started.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
costcard=$(realpath "${1:-$here/../../target/release/costcard}")
folder=$(mktemp -d)
chmod 755 "$folder"
cd "$folder"
started=()
finish() {
    set +e
    for process in "${started[@]}"; do kill "$process" 2>/dev/null || true; done
    for process in "${started[@]}"; do wait "$process" 2>/dev/null || true; done
    rm -rf "$folder"
}
trap finish EXIT

# A key and a socket of its own, so that a munge of this machine is left alone.
mkdir -m 711 munge
mkdir -m 700 munge/key
dd if=/dev/urandom of=munge/key/munge.key bs=1024 count=1 status=none
chmod 400 munge/key/munge.key
chown -R munge: munge
# munged looks at every folder above its socket.
runuser -u munge -- munged --foreground --force --key-file="$folder/munge/key/munge.key" \
    --socket="$folder/munge/socket" --pid-file="$folder/munge/pid" --log-file="$folder/munge/log" \
    --seed-file="$folder/munge/seed" > munged.out 2>&1 &
started+=($!)

host=$(hostname -s)
mkdir state spool
cat > slurm.conf <<CONF
ClusterName=study
SlurmctldHost=$host(127.0.0.1)
SlurmUser=root
AuthType=auth/munge
AuthInfo=socket=$folder/munge/socket
CredType=cred/munge
SlurmctldPort=16817
SlurmdPort=16818
StateSaveLocation=$folder/state
SlurmdSpoolDir=$folder/spool
SlurmctldPidFile=$folder/slurmctld.pid
SlurmdPidFile=$folder/slurmd.pid
SlurmctldLogFile=$folder/slurmctld.log
SlurmdLogFile=$folder/slurmd.log
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
SwitchType=switch/none
MpiDefault=none
ReturnToService=2
SchedulerType=sched/backfill
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
NodeName=$host NodeAddr=127.0.0.1 CPUs=$(nproc) State=UNKNOWN
PartitionName=all Nodes=$host Default=YES MaxTime=INFINITE State=UP
CONF
export SLURM_CONF=$folder/slurm.conf
for _ in $(seq 50); do [ -S munge/socket ] && break; sleep 0.1; done
slurmctld -D -c -f "$SLURM_CONF" > slurmctld.out 2>&1 &
started+=($!)
slurmd -D -c -f "$SLURM_CONF" > slurmd.out 2>&1 &
started+=($!)
for _ in $(seq 60); do
    state=$(sinfo -h -o %t 2>/dev/null || true)
    [ "$state" = idle ] && break
    sleep 0.5
done
if [ "$state" != idle ]; then
    echo "Slurm did not start:" >&2
    tail -n 20 munged.out slurmctld.out slurmctld.log slurmd.out slurmd.log >&2 || true
    exit 1
fi

cp "$here/study.toml" "$here/hole.toml" .
"$costcard" study study.toml --out whole

# The recipe: one script, an array of four; the part is read from the array.
cat > study.sbatch <<SBATCH
#!/bin/sh
#SBATCH --array=1-4
#SBATCH --cpus-per-task=1
#SBATCH --requeue
#SBATCH --output=part-%a.log
exec "$costcard" study study.toml --out "part-\$SLURM_ARRAY_TASK_ID" --threads 1
SBATCH
sbatch --wait study.sbatch
cat part-*.log
"$costcard" study --merge part-1 part-2 part-3 part-4 --out merged

diff -r whole merged
echo "four parts of a Slurm array: the bytes of a single run"
