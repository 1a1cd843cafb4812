using FoamRules.Contracts.V1;
using Google.Protobuf.Reflection;

namespace FoamRules.Pages.Reviews.Facts;

/// <summary>Choices of the contract that forms offer by themselves.</summary>
internal static class ReviewEnums
{
    /// <summary>Kinds of readings.</summary>
    public static EnumDescriptor ReadingKind { get; } = Reading.Descriptor.FindFieldByName("kind").EnumType;

    /// <summary>What may have changed since the last check.</summary>
    public static EnumDescriptor Change { get; } = ChangeList.Descriptor.FindFieldByName("changes").EnumType;
}
