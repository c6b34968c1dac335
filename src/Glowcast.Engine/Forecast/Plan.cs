using Glowcast.Engine.Capture;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Weather;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>What the photographer intends: where, when, with what, and what they want to see.</summary>
/// <remarks>Made by <see cref="PlanReader"/>, which lets only good values in.</remarks>
public sealed record Plan
{
    /// <summary>Null where the plan names none; the set alone needs none.</summary>
    public Lookout? Lookout { get; init; }

    /// <summary>Names of elevation grids, as the user wrote them: files for the command line, ids for the service.</summary>
    public IReadOnlyList<string> Grids { get; init; } = [];

    /// <summary>Small holes in the grids are to be filled from around them.</summary>
    public bool FillHoles { get; init; }

    /// <summary>How far the grids' heights may be off, one standard deviation, where the user knows it; null to go by the grids.</summary>
    public Length? HeightError { get; init; }

    /// <summary>Null where the plan names none.</summary>
    public LocalDate? Date { get; init; }

    public required BearingSpan Span { get; init; }

    /// <summary>How much the picture is to show from bottom to top.</summary>
    public Angle Vertical { get; init; } = Angle.FromDegrees(12);

    /// <summary>The altitude the middle of the rows looks at; null to place it by the crest.</summary>
    public Angle? CentrePitch { get; init; }

    /// <summary>Where the highest crest is to stand in the print, as a share of its height from the bottom.</summary>
    public double CrestShare { get; init; } = 2.0 / 3;

    /// <summary>Null where the plan says nothing of it; light alone needs no camera.</summary>
    public Gear? Gear { get; init; }

    /// <summary>What else is in the bag, at the aperture of the lens on the camera.</summary>
    public IReadOnlyList<Lens> OtherLenses { get; init; } = [];

    public SetSettings Set { get; init; } = new();

    /// <summary>True where the plan leaves the direction of the sweep to the forecast.</summary>
    public bool ChooseDirection { get; init; } = true;

    /// <summary>The kind of picture that the set is for.</summary>
    public PictureKind Picture { get; init; } = PictureKind.LitRidgeOverDarkGround;

    /// <summary>When to begin; null to be advised.</summary>
    public StartWish? StartAt { get; init; }

    /// <summary>Bearings on which the ridge may stay dark.</summary>
    public IReadOnlyList<BearingSpan> DarkStrips { get; init; } = [];

    /// <summary>From which chance on the set is said to fit.</summary>
    public ChanceBounds Chances { get; init; } = ChanceBounds.Usual;

    /// <summary>What counts how much in a season.</summary>
    public SeasonWeights SeasonWeights { get; init; } = SeasonWeights.Usual;

    /// <summary>True where the plan leaves the exposure to the forecast: the clock of the set then runs with what the light asks for.</summary>
    public bool ChooseExposure { get; init; }

    /// <summary>What an exposure is reckoned with.</summary>
    public ExposureSettings Exposure { get; init; } = new(ExposureSettings.UsualAperture);

    public Conditions Conditions { get; init; } = new();

    public LightThresholds Thresholds { get; init; } = LightThresholds.Usual;

    /// <summary>How far the brightness may drift from the first frame to the last [stops].</summary>
    public double ExposureDriftStops { get; init; } = 1.0 / 3;
}

/// <summary>Where the tripod stands.</summary>
/// <param name="EyeHeight">Of the lens above the ground.</param>
/// <param name="Zone">Null to reckon the day by the sun: local mean solar time.</param>
public sealed record Lookout(GeoPoint Point, Length EyeHeight, DateTimeZone? Zone)
{
    /// <summary>From true north to magnetic north, east positive, as the user knows it; null to have it modelled.</summary>
    public Angle? MagneticDeclination { get; init; }
}

/// <summary>The camera and the lens on it.</summary>
public sealed record Gear(Camera Camera, Lens Lens);

/// <summary>The state of air and cloud that is assumed.</summary>
public sealed record Conditions
{
    public Length Visibility { get; init; } = Length.FromKilometres(80);

    /// <summary>Top of a sea of cloud; null for none.</summary>
    public Length? DeckTop { get; init; }

    /// <summary>A sounding, whose deck is taken where <see cref="DeckTop"/> is not given; null for none.</summary>
    public Profile? Profile { get; init; }

    /// <summary>Fields of weather models; null for none.</summary>
    public WeatherFiles? Weather { get; init; }

    /// <summary>Cloud that may lie between ridge and sun.</summary>
    public IReadOnlyList<CloudLayer> CloudLayers { get; init; } = [];

    /// <summary>The report that <see cref="Visibility"/> is from; null where it is given as a number, or not at all.</summary>
    public ReportedVisibility? VisibilityReport { get; init; }

    /// <summary>How fast the cloud in the picture moves across the view [m/s]; null where nothing is known of it.</summary>
    public double? CloudSpeedMs { get; init; }

    /// <summary>Where that cloud comes from, for the order of shooting.</summary>
    public CloudMotion Cloud { get; init; } = CloudMotion.Unknown;

    /// <summary>How far that cloud is; null for the nearest visible top of the deck.</summary>
    public Length? CloudDistance { get; init; }

    /// <summary>At the lookout; null for standard air.</summary>
    public Air? Air { get; init; }

    /// <summary>Ångström's turbidity coefficient β at 1 µm, at sea level.</summary>
    public double AerosolBeta { get; init; } = 0.05;

    public Haze Haze => new(AerosolBeta);

    /// <summary>What the sun's beam comes through.</summary>
    public BeamAir Beam => new(Haze, Air);

    public Reflectances Reflectances { get; init; } = Reflectances.Usual;

    /// <summary>What the light of a season comes through.</summary>
    public SeasonAir SeasonAir => new(Haze, Visibility, Reflectances, Air);

    /// <summary>Ground at least so high is snow, lower ground is bare; null to go by ridge and valley.</summary>
    public Length? SnowLine { get; init; }

    /// <summary>Of the top of a sea of cloud, 0 to 1.</summary>
    public double DeckReflectance { get; init; } = Surfaces.UsualDeck;

    /// <summary>The user's own reflectances of the ground; null for none.</summary>
    public SurfaceRaster? SurfaceRaster { get; init; }

    public Surfaces Surfaces => new(Reflectances, SnowLine, DeckReflectance) { Raster = SurfaceRaster };

    public SightModel Sight { get; init; } = SightModel.Usual;
}
