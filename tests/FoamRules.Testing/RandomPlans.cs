using System.Collections;
using System.Globalization;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;

namespace FoamRules.Testing;

/// <summary>
/// Plans made at random from the contract itself, so that a new field takes part without a word here: any field given or
/// left out, any enum value, quantities from tiny to large. They can all be read; few of them make sense.
/// </summary>
public static class RandomPlans
{
    private static readonly string[] Areas = ["dock", "roof"];
    private static readonly string[] Products = ["pour", "spray"];
    private static readonly DateTimeOffset Day = new(2026, 4, 14, 8, 0, 0, TimeSpan.Zero);

    /// <summary>A plan from a seed: the same seed gives the same plan.</summary>
    /// <param name="seed">The seed.</param>
    /// <param name="items">How many work items.</param>
    public static Plan Make(ulong seed, int items)
    {
        // A plan is given in full, in part or hardly at all, so that both judged and undetermined outcomes are common.
        var random = new Random(unchecked((int)seed));
        var given = 0.3 + (0.7 * random.NextDouble());
        var plan = new Plan();
        Fill(plan, random, given, "");
        plan.Name = "random";
        plan.Stage = (Stage)random.Next(1, 5);
        plan.TimeZone = "America/Chicago";
        plan.RuleSets.Clear();
        plan.Jurisdiction = new Jurisdiction { Country = random.Next(2) == 0 ? "US" : "CA" };
        Replace(plan.Areas, Areas.Select(id => One<WorkArea>(random, given, area => area.Id = id)));
        Replace(plan.Products, Products.Select(id => One<Product>(random, given, product => product.Id = id)));
        Replace(plan.People, Enumerable.Range(1, random.Next(3)).Select(i => One<Person>(random, given, person => person.Id = $"p{i}")));
        Replace(plan.Work, Enumerable.Range(1, items).Select(i => One<WorkItem>(random, given, item => item.Id = $"w{i}")));
        return plan;
    }

    private static T One<T>(Random random, double given, Action<T> name)
        where T : IMessage<T>, new()
    {
        var message = new T();
        Fill(message, random, given, "");
        name(message);
        return message;
    }

    private static void Replace<T>(IList<T> list, IEnumerable<T> entries)
    {
        list.Clear();
        foreach (var entry in entries)
        {
            list.Add(entry);
        }
    }

    private static void Fill(IMessage message, Random random, double given, string path)
    {
        var isQuantity = message.Descriptor.File == QuantitiesReflection.Descriptor;
        foreach (var oneof in message.Descriptor.Oneofs.Where(oneof => !oneof.IsSynthetic))
        {
            var field = oneof.Fields[random.Next(oneof.Fields.Count)];
            field.Accessor.SetValue(message, Value(field, random, given, path));
        }

        if (isQuantity)
        {
            return;
        }

        foreach (var field in message.Descriptor.Fields.InDeclarationOrder().Where(field => field.RealContainingOneof is null))
        {
            var check = field.GetOptions()?.GetExtension(ChecksExtensions.Check);
            if (check?.Required is not true && random.NextDouble() > given)
            {
                continue;
            }

            if (field.IsRepeated)
            {
                var list = (IList)field.Accessor.GetValue(message);
                // The plan's own lists are made by Make.
                for (var i = path.Length == 0 && message is Plan ? 0 : random.Next(4); i > 0; i--)
                {
                    list.Add(Value(field, random, given, path + "." + field.Name));
                }
            }
            else
            {
                field.Accessor.SetValue(message, Value(field, random, given, path + "." + field.Name));
            }
        }

        Reconcile(message);
    }

    // A plan that contradicts itself is refused before anything is judged: of a least value above the greatest only the greatest stays, and
    // "none" stands alone.
    private static void Reconcile(IMessage message)
    {
        var fields = message.Descriptor.Fields.InDeclarationOrder();
        foreach (var field in fields)
        {
            if (field.GetOptions()?.GetExtension(ChecksExtensions.Check) is { NotBelow: { Length: > 0 } name } && message.Descriptor.FindFieldByName(name) is var low)
            {
                // The two by themselves: nothing else of the message is whole yet.
                var two = message.Descriptor.Parser.ParseFrom(ByteString.Empty);
                foreach (var one in new[] { field, low }.Where(one => one.FieldType == FieldType.String || one.Accessor.HasValue(message)))
                {
                    one.Accessor.SetValue(two, one.Accessor.GetValue(message));
                }

                if (RequestCheck.Of(two).Any(violation => violation.Path == field.Name))
                {
                    low.Accessor.Clear(message);
                }
            }
        }

        // A day of a pass goes with those below it.
        foreach (var field in fields.Where(field => field is { IsRepeated: true, FieldType: FieldType.Message }))
        {
            var entries = ((IList)field.Accessor.GetValue(message)).Cast<IMessage>().ToList();
            foreach (var ordered in field.MessageType.Fields.InDeclarationOrder().Where(one => one.GetOptions()?.GetExtension(ChecksExtensions.Check) is { InOrder: true }))
            {
                var given = entries.Where(entry => ordered.Accessor.HasValue(entry)).ToList();
                foreach (var (entry, value) in given.Zip(given.Select(ordered.Accessor.GetValue).Order().ToList()))
                {
                    ordered.Accessor.SetValue(entry, value);
                }
            }
        }

        foreach (var field in fields.Where(field => field is { IsRepeated: true, FieldType: FieldType.Enum }))
        {
            var list = (IList)field.Accessor.GetValue(message);
            foreach (var none in list.Cast<object>().Where(one => field.EnumType.FindValueByNumber(Convert.ToInt32(one, CultureInfo.InvariantCulture)).Name.EndsWith("_NONE", StringComparison.Ordinal)).Take(list.Count - 1).ToList())
            {
                list.Remove(none);
            }
        }
    }

    private static object Value(FieldDescriptor field, Random random, double given, string path)
    {
        switch (field.FieldType)
        {
            case FieldType.Bool:
                return random.Next(4) > 0;
            case FieldType.Enum:
                return field.EnumType.Values[random.Next(1, field.EnumType.Values.Count)].Number;
            case FieldType.Int32:
                return (int)Bounded(field, random);
            case FieldType.Double:
                return Bounded(field, random);
            case FieldType.String:
                return Text(field, random);
            case FieldType.Message when field.MessageType == Timestamp.Descriptor:
                return Timestamp.FromDateTimeOffset(Day.AddMinutes(random.Next(-3000, 6000)));
            case FieldType.Message:
                var message = field.MessageType.Parser.ParseFrom(ByteString.Empty);
                Fill(message, random, given, path + "." + field.Name);
                Clamp(message, field);
                return message;
            default:
                throw new NotSupportedException(field.FullName);
        }
    }

    // Percentages of moisture, oxygen and the like stop at 100, temperatures where nothing is hotter or colder.
    private static void Clamp(IMessage message, FieldDescriptor field)
    {
        if (QuantityMap.IsQuantity(message.Descriptor) && message.Descriptor.Oneofs[0].Accessor.GetCaseFieldDescriptor(message) is { } unit)
        {
            var (check, first) = (FieldChecker.CheckOf(field), QuantityMap.FirstUnit(message.Descriptor));
            var value = QuantityMap.In(QuantityMap.From((double)unit.Accessor.GetValue(message), unit), first);
            var within = Math.Clamp(value, FieldChecker.LeastOf(check, message.Descriptor), check.HasAtMost ? check.AtMost : double.MaxValue);
            if (value != within)
            {
                unit.Accessor.Clear(message);
                first.Accessor.SetValue(message, within);
            }
        }
    }

    private static double Bounded(FieldDescriptor field, Random random)
    {
        var check = field.GetOptions()?.GetExtension(ChecksExtensions.Check);
        var least = check is { HasAtLeast: true } ? check.AtLeast : 0;
        var most = check is { HasAtMost: true } ? check.AtMost : double.MaxValue;
        // Log-uniform from a tenth to a thousand: thicknesses, temperatures and times of any plausible size in any unit.
        var value = Math.Pow(10, (random.NextDouble() * 4) - 1);
        return Math.Min(most, Math.Max(least, field.FieldType == FieldType.Int32 ? Math.Round(value / 10) : value));
    }

    private static string Text(FieldDescriptor field, Random random)
    {
        var check = field.GetOptions()?.GetExtension(ChecksExtensions.Check);
        return (check?.Format, check?.NamesOneOf) switch
        {
            (TextFormat.Date, _) => new DateOnly(2026, 1, 1).AddDays(random.Next(-400, 400)).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            (TextFormat.TimeZone, _) => "America/Chicago",
            (TextFormat.Country, _) => "US",
            (TextFormat.Region, _) => "US-MN",
            (_, "areas") => Areas[random.Next(Areas.Length)],
            (_, "products") => Products[random.Next(Products.Length)],
            (_, "work") => "w1",
            _ when field.Name == "section" => "HSS6X6X3/8",
            // Ids are unique in their list; other texts meet now and then, as a fit test meets its facepiece.
            _ => field.Name == "id" ? $"t{random.Next()}" : $"t{random.Next(3)}",
        };
    }
}
