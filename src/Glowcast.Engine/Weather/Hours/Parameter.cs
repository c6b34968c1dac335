namespace Glowcast.Engine.Weather;

/// <summary>What a field measures, by discipline, category and number of the code tables.</summary>
internal readonly record struct Parameter(int Discipline, int Category, int Number)
{
    public static readonly Parameter Temperature = new(0, 0, 0);
    public static readonly Parameter DewPoint = new(0, 0, 6);
    public static readonly Parameter SpecificHumidity = new(0, 1, 0);
    public static readonly Parameter RelativeHumidity = new(0, 1, 1);
    public static readonly Parameter WindEast = new(0, 2, 2);
    public static readonly Parameter WindNorth = new(0, 2, 3);
    public static readonly Parameter Pressure = new(0, 3, 0);

    /// <summary>[m² s⁻²]</summary>
    public static readonly Parameter Geopotential = new(0, 3, 4);

    public static readonly Parameter GeopotentialHeight = new(0, 3, 5);
    public static readonly Parameter Height = new(0, 3, 6);
    public static readonly Parameter ModelGround = new(2, 0, 7);

    /// <summary>Cloud water and ice in a kilogram of air, as services name them; all that a file has of them add up.</summary>
    public static readonly Parameter[] CloudWater = [new(0, 1, 22), new(0, 1, 83)];
    public static readonly Parameter[] CloudIce = [new(0, 1, 23), new(0, 1, 82), new(0, 1, 84)];

    public static readonly Parameter TotalCover = new(0, 6, 1);
    public static readonly Parameter LowCover = new(0, 6, 3);
    public static readonly Parameter MiddleCover = new(0, 6, 4);
    public static readonly Parameter HighCover = new(0, 6, 5);
    public static readonly Parameter Cover = new(0, 6, 22);
    public static readonly Parameter CoverFraction = new(0, 6, 32);

    /// <summary>ECMWF's total cover, a share where the others are percent.</summary>
    public static readonly Parameter EcmwfTotalCover = new(0, 6, 192);

    public static Parameter Of(GribProduct product) => new(product.Discipline, product.Category, product.Number);

    /// <summary>What one unit of the field is as a share of the sky.</summary>
    public double CoverUnit => Number is 32 or 192 ? 1 : 0.01;
}
