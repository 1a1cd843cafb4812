using System.Collections.Immutable;
using UnitsNet;

namespace FoamRules.Model;

/// <summary>The part of a building's envelope that the foam belongs to, and what is asked of it.</summary>
public sealed record Envelope : PlanNode
{
    /// <summary>Warm air on one side and cold air on the other; false: the foam is no part of an envelope.</summary>
    public bool? AtEnvelope { get; init; }

    /// <summary>Inside air at design conditions.</summary>
    public Temperature? InsideTemperature { get; init; }

    /// <summary>Outside air at design conditions.</summary>
    public Temperature? OutsideTemperature { get; init; }

    /// <summary>Relative humidity of the inside air, by the building's use; there is no default.</summary>
    public Ratio? InsideHumidity { get; init; }

    /// <summary>The layers from the inside to the outside, without air films.</summary>
    public ImmutableArray<EnvelopeLayer> Layers { get; init; } = [];

    /// <summary>Which way the heat flows in winter: it decides the inside surface resistance where none is given.</summary>
    public HeatFlow? HeatFlow { get; init; }

    /// <summary>The inside surface resistance, where the rule set's does not stand.</summary>
    public ThermalResistance? InsideSurfaceResistance { get; init; }

    /// <summary>The outside surface resistance, where the rule set's does not stand.</summary>
    public ThermalResistance? OutsideSurfaceResistance { get; init; }

    /// <summary>Studs, joists and rails through the layers. A share of 0 is "none".</summary>
    public Framing? Framing { get; init; }

    /// <summary>Asked of the foam alone, such as a code's R-value for cavity insulation.</summary>
    public ThermalResistance? RequiredFoamResistance { get; init; }

    /// <summary>Asked of the whole, with air films and framing.</summary>
    public ThermalResistance? RequiredResistance { get; init; }

    /// <summary>Asked of the whole, as a U-factor with air films and framing.</summary>
    public HeatTransferCoefficient? RequiredTransmittance { get; init; }

    /// <summary>The class of vapour retarder that the code or the designer asks for.</summary>
    public VapourRetarderClass? RequiredVapourClass { get; init; }

    /// <summary>The greatest permeance that the code or the designer asks for.</summary>
    public VapourPermeance? RequiredPermeance { get; init; }

    /// <summary>A vapour retarder besides the foam, on its warm side.</summary>
    public VapourRetarder? VapourRetarder { get; init; }

    /// <summary>Steel members that pass through the insulation. Present and empty: none.</summary>
    public SteelMemberList? SteelMembers { get; init; }
}

/// <summary>One layer of an envelope.</summary>
public sealed record EnvelopeLayer : PlanNode
{
    /// <summary>What it is, such as gypsum board.</summary>
    public string? Name { get; init; }

    /// <summary>It is the foam of this piece of work: its thickness is the work's, its conductivity the product's at that thickness.</summary>
    public bool? IsThisFoam { get; init; }

    /// <summary>Its thickness; for the foam of a cavity fill, the thickness across the wall.</summary>
    public Length? Thickness { get; init; }

    /// <summary>Its thermal conductivity. That of this foam stands with the product.</summary>
    public ThermalConductivity? Conductivity { get; init; }

    /// <summary>Its thermal resistance, where it has no conductivity of its own, such as an air space.</summary>
    public ThermalResistance? Resistance { get; init; }

    /// <summary>Its resistance to vapour as a multiple of still air's: 1 is air.</summary>
    public double? VapourDiffusionFactor { get; init; }

    /// <summary>The framing goes through this layer.</summary>
    public bool? Framed { get; init; }
}

/// <summary>Which way heat flows in winter.</summary>
public enum HeatFlow
{
    /// <summary>Through a wall.</summary>
    Horizontal = 1,

    /// <summary>Up, through a roof or ceiling.</summary>
    Up = 2,

    /// <summary>Down, through a floor.</summary>
    Down = 3,
}

/// <summary>Framing through the layers.</summary>
public sealed record Framing : PlanNode
{
    /// <summary>Its share of the area; 0 is no framing.</summary>
    public Ratio? Share { get; init; }

    /// <summary>Its thermal conductivity, for wood and other framing that is not metal.</summary>
    public ThermalConductivity? Conductivity { get; init; }

    /// <summary>It is metal: the sum of layers then does not hold, and figures by test or by a two-dimensional calculation are needed.</summary>
    public bool? Metal { get; init; }

    /// <summary>U-factor of the whole with its framing, by test or by a two-dimensional calculation.</summary>
    public HeatTransferCoefficient? Transmittance { get; init; }

    /// <summary>Temperature factor of the coldest inner surface with the framing, by test or by a two-dimensional calculation.</summary>
    public double? SurfaceFactor { get; init; }
}

/// <summary>A class of vapour retarder.</summary>
public enum VapourRetarderClass
{
    /// <summary>None is asked for.</summary>
    None = 1,

    /// <summary>Class I, the tightest.</summary>
    I = 2,

    /// <summary>Class II.</summary>
    Ii = 3,

    /// <summary>Class III.</summary>
    Iii = 4,
}

/// <summary>How much vapour a layer lets through.</summary>
public sealed record VapourPermeance : PlanNode
{
    /// <summary>In US perms: grains per hour, square foot and inch of mercury.</summary>
    public double? UsPerms { get; init; }

    /// <summary>In nanograms per pascal, second and square meter.</summary>
    public double? NanogramsPerPascalSecondSquareMeter { get; init; }
}

/// <summary>A vapour retarder besides the foam.</summary>
public sealed record VapourRetarder : PlanNode
{
    /// <summary>It is planned; at close-out, it is in place.</summary>
    public bool? Planned { get; init; }

    /// <summary>Its class.</summary>
    public VapourRetarderClass? Class { get; init; }

    /// <summary>Its permeance.</summary>
    public VapourPermeance? Permeance { get; init; }
}

/// <summary>A list of steel members that can be known to be empty: absent is "not given", present and empty is "none".</summary>
public sealed record SteelMemberList : PlanNode
{
    /// <summary>The members.</summary>
    public ImmutableArray<SteelMember> Members { get; init; } = [];
}

/// <summary>A steel member that passes through the insulation.</summary>
public sealed record SteelMember : PlanNode
{
    /// <summary>What people call it.</summary>
    public string? Name { get; init; }

    /// <summary>The steel's area in section; that of the fill's own section where it is left out.</summary>
    public Area? SteelArea { get; init; }

    /// <summary>The perimeter that meets the air; that of the fill's own section where it is left out.</summary>
    public Length? Perimeter { get; init; }

    /// <summary>The steel's thermal conductivity; the rule set's where it is left out.</summary>
    public ThermalConductivity? Conductivity { get; init; }

    /// <summary>Its length in the inside air.</summary>
    public Length? InsideLength { get; init; }

    /// <summary>Its length within the insulation.</summary>
    public Length? LengthInInsulation { get; init; }

    /// <summary>Its length in the outside air.</summary>
    public Length? OutsideLength { get; init; }

    /// <summary>Insulation around it inside, from the envelope on.</summary>
    public MemberWrap? InsideWrap { get; init; }

    /// <summary>Insulation around it outside, from the envelope on.</summary>
    public MemberWrap? OutsideWrap { get; init; }
}

/// <summary>Insulation around a length of a member, from the envelope on.</summary>
public sealed record MemberWrap : PlanNode
{
    /// <summary>The length that is wrapped.</summary>
    public Length? Along { get; init; }

    /// <summary>Its thickness.</summary>
    public Length? Thickness { get; init; }

    /// <summary>Its thermal conductivity.</summary>
    public ThermalConductivity? Conductivity { get; init; }

    /// <summary>Vapour cannot get behind it. Inside, the steel under a wrap that is not tight gets wet.</summary>
    public bool? VapourTight { get; init; }
}
