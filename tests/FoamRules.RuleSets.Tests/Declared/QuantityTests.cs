using FoamRules.Model;
using FoamRules.RuleSets.Declared;
using UnitsNet;

namespace FoamRules.RuleSets.Tests.Declared;

/// <summary>Quantities in expressions: units, sums and products that have a meaning, words of enums, limits with their directions.</summary>
public sealed class QuantityTests
{
    [Theory]
    [InlineData("work.spray.thickness == millimeters(50.8)")]
    [InlineData("work.spray.thickness >= inches(2) && work.spray.thickness <= inches(2)")]
    [InlineData("work.spray.thickness + inches(1) == inches(3)")]
    [InlineData("work.spray.thickness * 2 == inches(4) && 0.5 * work.spray.thickness == inches(1)")]
    [InlineData("work.spray.thickness / inches(1) > 1.999 && work.spray.thickness / 2 == inches(1)")]
    [InlineData("work.spray.thickness * percent(50) == inches(1)")]
    [InlineData("work.spray.area * work.spray.thickness > cubic_feet(16) && work.spray.area * work.spray.thickness < cubic_feet(17)")]
    [InlineData("work.density * cubic_meters(2) == kilograms(60) && kilograms(60) / work.density == cubic_meters(2)")]
    [InlineData("gear.output * seconds(10) == grams(500)")]
    [InlineData("grams(500) / gear.output == seconds(10)")]
    [InlineData("area.readings[0].temperature - degrees_celsius(5) == kelvins(5)")]
    [InlineData("area.readings[0].temperature + kelvins(5) > degrees_fahrenheit(58.9)")]
    [InlineData("area.last_spray_at - area.first_spray_at == hours(2)")]
    [InlineData("area.first_spray_at + minutes(120) == area.last_spray_at")]
    [InlineData("area.first_spray_at > timestamp('2026-04-14T12:59:59Z')")]
    [InlineData("plan.work_date - date('2026-04-13') == days(1)")]
    [InlineData("duration('1h30m') == minutes(90) && duration('-1s') < seconds(0)")]
    [InlineData("area.enclosure == 'interior' && area.enclosure != 'ENCLOSURE_ROOF' && area.enclosure in ['roof', 'INTERIOR']")]
    [InlineData("area.readings.all(r, r.kind == 'air-temperature' && r.temperature >= degrees_celsius(10))")]
    [InlineData("size(work.spray.passes) == 2 && work.spray.passes.map(p, p.thickness)[1] == inches(1)")]
    [InlineData("inches(1) in work.spray.passes.map(p, p.thickness)")]
    [InlineData("size(work.spray.passes.filter(p, p.thickness > inches(0.5))) == 2")]
    [InlineData("work.fire.cables_in_one_opening + 1 == 3 && work.fire.plenum_flame_spread <= 25")]
    [InlineData("plan.name.startsWith('Ware') && plan.name.contains('hou') && plan.name.endsWith('se') && size(plan.name) == 9")]
    [InlineData("!has(work.fire.covering) && !has(work.fire.covering.thickness) && has(work.fire)")]
    [InlineData("product.kind == 'closed-cell-spray' && plan.stage == 'plan'")]
    public void It_holds(string expression) => Assert.True(Ask(expression).Holds, expression);

    [Theory]
    [InlineData("work.spray.thickness > millimeters(50.8)")]
    [InlineData("hours(1) - days(2) > seconds(0)")]
    public void It_does_not_hold(string expression) => Assert.False(Ask(expression).Holds, expression);

    [Theory]
    [InlineData("work.spray.thickness / (inches(1) - inches(1)) > 1", "division by zero")]
    [InlineData("area.readings[7].continuous", "entry 7 of a list of 1")]
    [InlineData("days(100000) + days(100000) > days(1)", "too large")]
    [InlineData("timestamp('9999-12-31T00:00:00Z') + days(2) > area.first_spray_at", "outside the years")]
    public void It_has_no_result(string expression, string why) => Assert.Contains(why, Ask(expression).Failure, StringComparison.Ordinal);

    [Fact]
    public void A_limit_with_two_figures_is_met_on_either()
    {
        var board = Limit("board", Tighter.Higher, Length.FromInches(0.25), Length.FromMillimeters(6.4));
        Assert.True(Part("work.fire.floor_panel >= limits.board", board).Ask(Input()).Holds);
    }

    [Theory]
    [InlineData("work.spray.thickness <= limits.most", Tighter.Lower, true)]
    [InlineData("limits.most >= work.spray.thickness", Tighter.Lower, true)]
    [InlineData("work.spray.thickness >= limits.most", Tighter.Higher, true)]
    [InlineData("work.spray.thickness > limits.most", Tighter.Neither, false)]
    [InlineData("work.spray.thickness + inches(1) <= limits.most", Tighter.Lower, false)]
    public void A_field_against_a_limit_is_seen_as_such(string expression, Tighter tighter, bool isSeen)
    {
        var most = Limit("most", tighter, Length.FromInches(2));
        var part = Part(expression, most);
        Assert.Equal(isSeen ? most : null, part.Against);
        Assert.Equal([most], part.Limits);
    }

    [Theory]
    [InlineData("work.spray.thickness >= limits.most", Tighter.Lower)]
    [InlineData("limits.most < work.spray.thickness", Tighter.Lower)]
    [InlineData("work.spray.thickness < limits.most", Tighter.Higher)]
    public void A_field_beyond_its_limit_is_refused(string expression, Tighter tighter) =>
        Assert.Throws<ExpressionException>(() => Part(expression, Limit("most", tighter, Length.FromInches(2))));

    [Fact]
    public void A_list_of_words_holds_the_words_of_an_enum()
    {
        var gloves = Limit("gloves", Tighter.Fewer, Length.Zero) with { Words = ["nitrile", "butyl"] };
        var part = Condition.CompilePart(SyntaxReader.Read("person.clothing.gloves in limits.gloves"), ExpressionScope.Of(DeclaredBearer.Person, new Dictionary<string, Limit> { ["gloves"] = gloves }));
        var input = Input();
        foreach (var (material, holds) in new[] { (GloveMaterial.Butyl, true), (GloveMaterial.Leather, false) })
        {
            var person = new ExpressionInput { Plan = input.Plan, Site = input.Site, Gear = input.Gear, Person = new Person { Clothing = new Clothing { Gloves = material } } };
            Assert.Equal(holds, part.Ask(person).Holds);
        }
    }

    // A difference of temperatures has its own name in rule sets, since 5 °F of difference is not a temperature.
    [Fact]
    public void Every_unit_of_the_contract_has_a_helper_that_gives_its_quantity()
    {
        var kinds = new Dictionary<string, string> { ["TemperatureDifference"] = "TemperatureDelta", ["AirChanges"] = "Frequency", ["HeatPerArea"] = "Irradiation", ["SoundLevel"] = "Level", ["SpecificHeat"] = "SpecificEntropy" };
        foreach (var field in QuantitiesOf(Contracts.V1.Plan.Descriptor, []).SelectMany(message => message.Fields.InDeclarationOrder()))
        {
            var name = (field.ContainingType.Name, field.Name) == ("TemperatureDifference", "degrees_fahrenheit") ? "fahrenheit_degrees" : field.Name;
            Assert.Equal(kinds.GetValueOrDefault(field.ContainingType.Name, field.ContainingType.Name), LimitReader.Units[name](1).QuantityInfo.Name);
        }
    }

    // The quantities that plans carry; those of the calculations alone are no words of an expression.
    private static IEnumerable<Google.Protobuf.Reflection.MessageDescriptor> QuantitiesOf(Google.Protobuf.Reflection.MessageDescriptor message, HashSet<string> seen)
    {
        if (!seen.Add(message.FullName))
        {
            return [];
        }

        return message.File == Contracts.V1.QuantitiesReflection.Descriptor
            ? [message]
            : message.Fields.InDeclarationOrder().Where(field => field.FieldType == Google.Protobuf.Reflection.FieldType.Message).SelectMany(field => QuantitiesOf(field.MessageType, seen));
    }

    [Fact]
    public void Every_field_of_a_plan_has_a_type()
    {
        var seen = new HashSet<Type>();
        var open = new Queue<Type>([typeof(Plan)]);
        while (open.TryDequeue(out var record))
        {
            foreach (var field in Field.Of(record).Values)
            {
                var type = field.Type is ListType list ? list.Item : field.Type;
                if (type is RecordType part && seen.Add(part.Record))
                {
                    open.Enqueue(part.Record);
                }
            }
        }

        Assert.True(seen.Count > 50);
    }

    private static ExpressionAnswer Ask(string expression) =>
        Condition.Compile(SyntaxReader.Read(expression), ExpressionScope.Of(DeclaredBearer.Work, new Dictionary<string, Limit>())).Ask(Input());

    private static Condition Part(string expression, Limit limit) =>
        Condition.CompilePart(SyntaxReader.Read(expression), ExpressionScope.Of(DeclaredBearer.Work, new Dictionary<string, Limit> { [limit.Name] = limit }));

    private static Limit Limit(string name, Tighter tighter, IQuantity value, IQuantity? or = null) => new()
    {
        Name = name,
        Value = Measure.Of(value),
        Or = or is null ? null : Measure.Of(or),
        Tighter = tighter,
        Source = new Source("book", "A book", SourceStatus.Read, "test"),
        Layer = "test",
    };

    private static ExpressionInput Input()
    {
        var start = new DateTimeOffset(2026, 4, 14, 8, 0, 0, TimeSpan.FromHours(-5));
        return new ExpressionInput
        {
            Plan = new Plan { Name = "Warehouse", Stage = Stage.Plan, WorkDate = new DateOnly(2026, 4, 14) },
            Site = new Site(),
            Gear = new Gear { Output = MassFlow.FromGramsPerSecond(50) },
            Area = new WorkArea
            {
                Enclosure = Enclosure.Interior,
                FirstSprayAt = start,
                LastSprayAt = start.AddHours(2),
                Readings = [new Reading { Kind = ReadingKind.AirTemperature, Temperature = Temperature.FromDegreesCelsius(10) }],
            },
            Product = new Product { Kind = FoamKind.ClosedCellSpray },
            Work = new WorkItem
            {
                Density = Density.FromKilogramsPerCubicMeter(30),
                Spray = new SprayApplication
                {
                    Thickness = Length.FromInches(2),
                    Area = Area.FromSquareFeet(100),
                    Passes = [new Pass { Thickness = Length.FromInches(1) }, new Pass { Thickness = Length.FromInches(1) }],
                },
                Fire = new FireSituation { CablesInOneOpening = 2, PlenumFlameSpread = 25, FloorPanel = Length.FromInches(0.25) },
            },
        };
    }
}
