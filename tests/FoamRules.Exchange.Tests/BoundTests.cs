using FoamRules.Contracts.V1;
using Google.Protobuf.Reflection;

namespace FoamRules.Exchange.Tests;

/// <summary>What cannot be is refused: each quantity of a plan ends somewhere, on both sides.</summary>
public sealed class BoundTests
{
    [Fact]
    public void Every_quantity_of_a_plan_has_a_greatest_value_that_is_no_limit_of_the_trade()
    {
        var quantities = Messages(Plan.Descriptor, []).SelectMany(message => message.Fields.InDeclarationOrder())
            .Where(field => field.FieldType == FieldType.Message && QuantityMap.IsQuantity(field.MessageType)).ToList();
        Assert.InRange(quantities.Count, 180, 1000);
        Assert.Empty(quantities.Where(field => !FieldChecker.CheckOf(field).HasAtMost).Select(field => field.FullName));
        Assert.All(quantities, field => Assert.True(FieldChecker.LeastOf(FieldChecker.CheckOf(field), field.MessageType) < FieldChecker.CheckOf(field).AtMost, field.FullName));
    }

    [Fact]
    public void A_field_s_own_bound_goes_before_that_of_its_kind()
    {
        var (own, kind) = (WorkItem.Descriptor.FindFieldByName("density"), Reading.Descriptor.FindFieldByName("humidity"));
        Assert.Equal((2000, 100), (FieldChecker.CheckOf(own).AtMost, FieldChecker.CheckOf(kind).AtMost));
        Assert.Equal(-5_000_000, FieldChecker.LeastOf(FieldChecker.CheckOf(Site.Descriptor.FindFieldByName("altitude")), Length.Descriptor));
    }

    [Theory]
    [InlineData("products: [{ id: p, max_service_temperature: { degrees_fahrenheit: 5000 } }]", "products[0].max_service_temperature.degrees_fahrenheit", "at most 400 degrees celsius")]
    [InlineData("products: [{ id: p, min_storage_temperature: { degrees_celsius: -150 } }]", "products[0].min_storage_temperature.degrees_celsius", "at least -100 degrees celsius")]
    [InlineData("products: [{ id: p, core_density: { pounds_per_cubic_foot: 200 } }]", "products[0].core_density.pounds_per_cubic_foot", "at most 2000 kilograms per cubic meter")]
    [InlineData("work: [{ id: w, area: a, product: p, spray: { passes: [{ thickness: { meters: 20 } }] } }]", "work[0].spray.passes[0].thickness.meters", "at most 10000 millimeters")]
    [InlineData("work: [{ id: w, area: a, product: p, hottest_surface_in_service: { degrees_fahrenheit: 5000 } }]", "work[0].hottest_surface_in_service.degrees_fahrenheit", "at most 1500 degrees celsius")]
    [InlineData("people: [{ id: m, noise_level: { decibels: 850 } }]", "people[0].noise_level.decibels", "at most 200 decibels")]
    public void What_cannot_be_is_refused_with_what_was_found_and_what_is_allowed(string fields, string path, string allowed)
    {
        var violation = Assert.Single(PlanReader.ReadText($"name: x\nstage: plan\n{fields}\n", "plan.yaml", new ReadOptions(DateTimeOffset.UnixEpoch)).Violations, one => one.Path == path);
        Assert.Equal((allowed, true), (violation.Allowed, violation.Line > 0));
    }

    private static HashSet<MessageDescriptor> Messages(MessageDescriptor message, HashSet<MessageDescriptor> seen)
    {
        if (seen.Add(message))
        {
            foreach (var field in message.Fields.InDeclarationOrder().Where(field => field.FieldType == FieldType.Message && !QuantityMap.IsQuantity(field.MessageType)))
            {
                Messages(field.MessageType, seen);
            }
        }

        return seen;
    }
}
