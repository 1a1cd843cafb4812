using System.Collections.Immutable;
using System.Globalization;
using FoamRules.Model;
using FoamRules.Text;
using UnitsNet;

namespace FoamRules.RuleSets;

/// <summary>
/// Reads limits. A limit is a mapping with <c>at-most</c>, <c>at-least</c>, <c>is</c> or <c>any-of</c>; a mapping without
/// one of them is a group, and its name goes before the names in it. Values are written as in plans, under the name of
/// their unit: <c>at-most: { inches: 2 }</c>.
/// </summary>
internal static class LimitReader
{
    // The two units that a source prints differ by rounding; more than this is another limit, by which a layer could loosen unseen.
    private const double MostRounding = 0.05;

    private const string EachByItself = "each";
    private const string Together = "together";

    private static readonly string[] Kinds = ["at-most", "at-least", "is", "any-of"];

    // The units that rule sets may use, by the names that the contract gives them. A difference of temperatures has its own
    // names, since 5 °F of difference is not a temperature.
    internal static readonly ImmutableDictionary<string, Func<double, IQuantity>> Units = ReadUnits();

    public static ImmutableSortedDictionary<string, Limit> Read(
        IEnumerable<MapEntry> entries, string path, string layer, IReadOnlyDictionary<string, Source> sources, Problems problems)
    {
        var limits = ImmutableSortedDictionary.CreateBuilder<string, Limit>(StringComparer.Ordinal);
        ReadInto(entries, "", path, layer, sources, new Group(null, null, null), problems, limits);
        return limits.ToImmutable();
    }

    private static void ReadInto(
        IEnumerable<MapEntry> entries, string prefix, string path, string layer, IReadOnlyDictionary<string, Source> sources,
        Group group, Problems problems, ImmutableSortedDictionary<string, Limit>.Builder limits)
    {
        foreach (var entry in entries)
        {
            var name = prefix + entry.Name;
            var here = $"{path}.{entry.Name}";
            if (entry.Value is MapNode map && !map.Entries.Any(child => Kinds.Contains(child.Name)))
            {
                var inherited = new Group(
                    map["source"] is ScalarNode { Text: { } id } node ? FindSource(id, node, here, sources, problems) : group.Source,
                    map["allows"] is { } allows ? ReadAllows(allows, here, problems) : group.Allows,
                    map["allows"] is null ? group.Name : name);
                ReadInto(map.Entries.Where(child => child.Name is not ("source" or "allows")), name + ".", here, layer, sources, inherited, problems, limits);
            }
            else if (ReadOne(entry.Value, name, here, layer, sources, group, problems) is { } limit)
            {
                limits[name] = limit;
            }
        }
    }

    private static Limit? ReadOne(
        DataNode node, string name, string path, string layer, IReadOnlyDictionary<string, Source> sources, Group group, Problems problems)
    {
        var reader = new EntryReader(node, path, problems);
        var kinds = Kinds.Where(kind => reader.Child(kind) is not null).ToList();
        var sourceNode = reader.Child("source");
        var source = sourceNode is ScalarNode { Text: { } id } ? FindSource(id, sourceNode, path, sources, problems) : group.Source;
        var relaxes = reader.Text("relaxes") == "true";
        var authority = reader.Text("authority");
        var neither = reader.Text("tighter");
        _ = reader.Text("note");
        var orNode = reader.Child("or");
        var overSheet = reader.Text("over-sheet") == "true";
        reader.Done();
        if (kinds.Count != 1)
        {
            problems.Add(node, path, kinds.Count == 0 ? "no value" : string.Join(" and ", kinds), "one of at-most, at-least, is, any-of", "give the limit once");
            return null;
        }

        if (source is null)
        {
            // A source that is named but unknown has been said already.
            if (sourceNode is null)
            {
                problems.Add(node, path, "no source", "a source of this rule set", "name the source; without one a limit does not load");
            }

            return null;
        }

        if (relaxes && string.IsNullOrEmpty(authority))
        {
            problems.Add(node, path, "a relaxation without an authority", "authority: who allows it", "name the authority, or take `relaxes` out");
            return null;
        }

        var kind = kinds[0];
        var tighter = kind switch
        {
            "at-most" => Tighter.Lower,
            "at-least" => Tighter.Higher,
            "any-of" => Tighter.Fewer,
            _ => neither switch { "lower" => Tighter.Lower, "higher" => Tighter.Higher, _ => Tighter.Neither },
        };
        var valueNode = reader.Child(kind)!;
        if (kind == "any-of")
        {
            var words = reader.Texts(kind) ?? [];
            return new Limit
            {
                Name = name,
                Value = Measure.OfText(string.Join(", ", words.Select(word => word.Text))),
                Words = [.. words.Select(word => word.Text)],
                Tighter = tighter,
                Source = source,
                Layer = layer,
                RelaxedBy = relaxes ? authority : null,
                StandsOverSheet = overSheet,
                Allows = group.Allows switch { EachByItself => name, Together => group.Name, _ => null },
                Place = problems.Place(node, path),
            };
        }

        var value = ReadValue(valueNode, $"{path}.{kind}", problems);
        var alternative = orNode is null ? null : ReadValue(orNode, $"{path}.or", problems);
        if (value is null)
        {
            return null;
        }

        if (alternative is not null && (alternative.Quantity is null || alternative.Quantity.QuantityInfo.Name != value.Quantity?.QuantityInfo.Name))
        {
            problems.Add(orNode!, $"{path}.or", "another kind of value", "the same quantity in another unit", "write what the source prints as its alternative");
            return null;
        }

        if (alternative is not null && Math.Abs((Quantities.InBase(alternative.Quantity!) / Quantities.InBase(value.Quantity!)) - 1) > MostRounding)
        {
            problems.Add(orNode!, $"{path}.or", "another value", "the same value in another unit, rounded", "write what the source prints as its alternative; a different value is a limit of its own");
            return null;
        }

        return new Limit
        {
            Name = name,
            Value = value,
            Or = alternative,
            Tighter = tighter,
            Source = source,
            Layer = layer,
            RelaxedBy = relaxes ? authority : null,
            StandsOverSheet = overSheet,
            Allows = group.Allows switch { EachByItself => name, Together => group.Name, _ => null },
            Place = problems.Place(node, path),
        };
    }

    // What a group gives to the limits in it.
    private sealed record Group(Source? Source, string? Allows, string? Name);

    private static string? ReadAllows(DataNode node, string path, Problems problems)
    {
        if (node is ScalarNode { Text: EachByItself or Together } word)
        {
            return word.Text;
        }

        problems.Add(
            node, $"{path}.allows", "something else", $"{EachByItself}, where each limit of the group names an alternative; {Together}, where all of them are the conditions of one exception",
            "say which of the two it is, or leave it out where the group restricts");
        return null;
    }

    private static Measure? ReadValue(DataNode node, string path, Problems problems)
    {
        if (node is not MapNode { Entries: [{ Value: ScalarNode { Text: { } text } } entry] })
        {
            problems.Add(node, path, "no value under a unit", "one value under the name of its unit, such as { inches: 2 }", "write the value like that");
            return null;
        }

        if (entry.Name == "date")
        {
            if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date))
            {
                return Measure.OfDate(date);
            }

            problems.Add(entry.Value, path, $"`{text}`", "a calendar date", "write it like 2026-01-01");
            return null;
        }

        if (!double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) || !double.IsFinite(number))
        {
            problems.Add(entry.Value, path, $"`{text}`", "a number", "write the number alone, with a point for decimals");
            return null;
        }

        if (entry.Name == "count" && number == Math.Floor(number))
        {
            return Measure.OfCount((long)number);
        }

        if (Units.TryGetValue(entry.Name, out var make))
        {
            return Measure.Of(make(number));
        }

        var nearest = Units.Keys.MinBy(unit => Closeness.Distance(unit, entry.Name));
        problems.Add(entry.Line, entry.Column, path, $"the unknown unit `{entry.Name}`", "a unit of the contract, `count`, `factor` or `date`", $"did you mean {nearest}?");
        return null;
    }

    private static Source? FindSource(string id, DataNode node, string path, IReadOnlyDictionary<string, Source> sources, Problems problems)
    {
        if (sources.TryGetValue(id, out var source))
        {
            return source;
        }

        var nearest = sources.Keys.MinBy(known => Closeness.Distance(known, id));
        problems.Add(node, path, $"the unknown source `{id}`", "a source of sources.yaml", nearest is null ? "add the source" : $"did you mean {nearest}?");
        return null;
    }

    private static ImmutableDictionary<string, Func<double, IQuantity>> ReadUnits()
    {
        string[] kinds =
        [
            "Length", "Area", "Volume", "Mass", "Temperature", "Density", "Duration", "Ratio", "Speed", "Pressure", "VolumeFlow",
            "MassFlow", "VolumeConcentration", "MassConcentration", "Illuminance", "Irradiation", "Level", "ElectricPotential",
            "MolarMass", "SpecificEnergy", "SpecificEntropy", "ThermalConductivity", "ThermalResistance",
            "HeatTransferCoefficient",
        ];
        var units = ImmutableDictionary.CreateBuilder<string, Func<double, IQuantity>>(StringComparer.Ordinal);
        foreach (var unit in kinds.SelectMany(kind => Quantities.InfoOf(kind).UnitInfos))
        {
            units.TryAdd(PathStep.FieldName(unit.PluralName), value => Quantities.From(value, unit.Value));
        }

        units["kelvins"] = value => TemperatureDelta.FromKelvins(value);
        units["fahrenheit_degrees"] = value => TemperatureDelta.FromDegreesFahrenheit(value);
        // A ratio and a density have units of the same names; in plans and rule sets these are concentrations.
        units["parts_per_million"] = value => VolumeConcentration.FromPartsPerMillion(value);
        units["parts_per_billion"] = value => VolumeConcentration.FromPartsPerBillion(value);
        units["milligrams_per_cubic_meter"] = value => MassConcentration.FromMilligramsPerCubicMeter(value);
        units["micrograms_per_cubic_meter"] = value => MassConcentration.FromMicrogramsPerCubicMeter(value);
        units["per_hour"] = value => Frequency.FromCyclesPerHour(value);
        units["foot_candles"] = value => FootCandles.From(value);
        // A permeance is carried as its number of US perms.
        units["us_perms"] = value => new Scalar(value, UnitsNet.Units.ScalarUnit.Amount);
        units["nanograms_per_pascal_second_square_meter"] = value => new Scalar(UsPerms.FromNanograms(value), UnitsNet.Units.ScalarUnit.Amount);
        units["factor"] = value => new Scalar(value, UnitsNet.Units.ScalarUnit.Amount);
        return units.ToImmutable();
    }
}
