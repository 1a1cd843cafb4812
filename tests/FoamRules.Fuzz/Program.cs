using System.Diagnostics;
using System.Globalization;
using FoamRules.Fuzz;

// Throws made-up inputs at every door. Usage: [--inputs N] [--seed N] [--door NAME]…
// Exit code 0: no input brought anything but an answer or a refusal that says why; 1: one did, and its bytes are written to fuzz-faults/.
const int chunk = 10_000;
const double slowest = 5;
var (inputs, seed, names) = (60_000L, 1, new List<string>());
for (var i = 0; i + 1 < args.Length; i += 2)
{
    switch (args[i])
    {
        case "--inputs":
            inputs = long.Parse(args[i + 1], CultureInfo.InvariantCulture);
            break;
        case "--seed":
            seed = int.Parse(args[i + 1], CultureInfo.InvariantCulture);
            break;
        case "--door":
            names.Add(args[i + 1]);
            break;
        default:
            Console.Error.WriteLine($"found {args[i]}; allowed: --inputs N, --seed N, --door NAME");
            return 2;
    }
}

var doors = Doors.All.Where(door => names.Count == 0 || names.Contains(door.Name)).ToList();
if (doors.Count == 0)
{
    Console.Error.WriteLine($"no such door; allowed: {string.Join(", ", Doors.All.Select(door => door.Name))}");
    return 2;
}

var faults = new HashSet<string>(StringComparer.Ordinal);
foreach (var (door, (file, input)) in doors.SelectMany(door => door.Kept().Select(kept => (door, kept))))
{
    try
    {
        _ = door.Enter(input);
    }
    catch (Exception error)
    {
        Fault(door, input, file, error.ToString());
    }
}

foreach (var door in doors)
{
    var (taken, done, started) = (0L, 0L, Stopwatch.GetTimestamp());
    while (done < inputs)
    {
        var mutator = new Mutator(door.Corpus.Value, door.Words, HashCode(seed, door.Name, done / chunk));
        for (var number = 0; number < chunk && done < inputs; number++, done++)
        {
            var input = mutator.Next();
            var before = Stopwatch.GetTimestamp();
            try
            {
                taken += door.Enter(input) ? 1 : 0;
                // Once more where it was slow: the first of its kind is compiled meanwhile, and the machine may be busy.
                if (Stopwatch.GetElapsedTime(before).TotalSeconds > slowest && Again(door, input) is var seconds && seconds > slowest)
                {
                    Fault(door, input, "slow", $"took {seconds:0.0} s, twice");
                }
            }
            catch (Exception error)
            {
                Fault(door, input, $"{error.GetType().Name} {error.StackTrace?.Split('\n')[0].Trim()}", error.ToString());
            }
        }
    }

    var all = Stopwatch.GetElapsedTime(started).TotalSeconds;
    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{door.Name}: {done} inputs, {taken} taken, {done - taken} refused; {done / all:0} a second; {GC.GetTotalMemory(true) / 1048576} MiB held"));
}

Console.WriteLine($"{faults.Count} faults");
return faults.Count == 0 ? 0 : 1;

static double Again(Door door, byte[] input)
{
    var started = Stopwatch.GetTimestamp();
    _ = door.Enter(input);
    return Stopwatch.GetElapsedTime(started).TotalSeconds;
}

// Of faults of one kind the first is enough.
void Fault(Door door, byte[] input, string kind, string what)
{
    if (!faults.Add(door.Name + kind))
    {
        return;
    }

    Directory.CreateDirectory("fuzz-faults");
    var file = Path.Combine("fuzz-faults", string.Create(CultureInfo.InvariantCulture, $"{door.Name}-{faults.Count}"));
    File.WriteAllBytes(file, input);
    Console.WriteLine($"FAULT at {door.Name}, input in {file}: {what}");
}

// Not string.GetHashCode: that is another in every process.
static int HashCode(int seed, string name, long part) => unchecked((int)((seed * 31L) + name.Aggregate(17L, (hash, letter) => (hash * 31) + letter) + (part * 7919)));
