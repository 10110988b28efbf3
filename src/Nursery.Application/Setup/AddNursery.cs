using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Nursery.Application.Access;
using Nursery.Application.Batches;
using Nursery.Application.Benches;
using Nursery.Application.Crops;
using Nursery.Application.Exports;
using Nursery.Application.Forecasts;
using Nursery.Application.Germination;
using Nursery.Application.HeatAndLight;
using Nursery.Application.HeatZones;
using Nursery.Application.HeatZones.Alarms;
using Nursery.Application.HeatZones.Learning;
using Nursery.Application.HeatZones.Readings;
using Nursery.Application.History;
using Nursery.Application.Houses;
using Nursery.Application.Labour;
using Nursery.Application.Orders;
using Nursery.Application.Outages;
using Nursery.Application.Papers;
using Nursery.Application.People;
using Nursery.Application.Plans;
using Nursery.Application.Reservations;
using Nursery.Application.Rounds;
using Nursery.Application.Runs;
using Nursery.Application.Scenario;
using Nursery.Application.SeedLots;
using Nursery.Application.Setup.Lists;
using Nursery.Application.Sowings;
using Nursery.Application.Start;
using Nursery.Application.Tasks;
using Nursery.Data;
using Nursery.Data.People;

namespace Nursery.Application.Setup;

public static class NurseryServices
{
    /// <summary>Everything below the pages: database, people, keys, health and the use cases of every feature.</summary>
    public static IServiceCollection AddNursery(this IServiceCollection services, NurseryDatabase where)
    {
        services.AddSingleton(where);
        services.AddSingleton(TimeProvider.System);
        services.AddDbContextFactory<NurseryDbContext>(options => options.UseNurseryDatabase(where.AppConnectionString));
        services.AddDataProtection().SetApplicationName("Nursery").PersistKeysToDbContext<NurseryDbContext>();
        services.AddSingleton<StartupState>();
        services.AddHealthChecks().AddCheck<DatabaseReadiness>("database", tags: ["ready"]);
        return services.AddPeople().AddUseCases();
    }

    private static IServiceCollection AddPeople(this IServiceCollection services)
    {
        services.AddIdentityCore<Person>(options =>
            {
                options.Password.RequiredLength = 12;
                options.Password.RequireNonAlphanumeric = false;
                options.Password.RequireUppercase = false;
                options.Password.RequireLowercase = false;
                options.Password.RequireDigit = false;
                options.Lockout.MaxFailedAccessAttempts = 8;
                options.Lockout.DefaultLockoutTimeSpan = TimeSpan.FromMinutes(5);
            })
            .AddEntityFrameworkStores<NurseryDbContext>()
            .AddSignInManager()
            .AddClaimsPrincipalFactory<PersonClaims>()
            .AddDefaultTokenProviders();
        return services;
    }

    private static IServiceCollection AddUseCases(this IServiceCollection services) => services
        .AddTransient<FindActor>()
        .AddTransient<RememberAnswer>()
        .AddTransient<SignInPerson>()
        .AddTransient<IssueApiKey>()
        .AddTransient<ShowSite>()
        .AddTransient<ImportOrders>()
        .AddTransient<ListOrderLines>()
        .AddTransient<ChangeOrderLine>()
        .AddTransient<ExportOrders>()
        .AddTransient<PlanBatch>()
        .AddTransient<PlanFromOrders>()
        .AddTransient<ShowSowingOptions>()
        .AddTransient<ListBatches>()
        .AddTransient<ExportBatches>()
        .AddTransient<ChangeBatch>()
        .AddTransient<DiscardBatch>()
        .AddTransient<DiscardTrays>()
        .AddTransient<ShareTrays>()
        .AddTransient<UnshareTrays>()
        .AddTransient<ListTrayPartners>()
        .AddTransient<ListUnplaced>()
        .AddTransient<ListVarieties>()
        .AddTransient<FindCropEmergence>()
        .AddTransient<ListCropNames>()
        .AddTransient<ListLotsOf>()
        .AddTransient<ShowStart>()
        .AddTransient<ShowBatch>()
        .AddTransient<SowBatch>()
        .AddTransient<ListBenches>()
        .AddTransient<ListHeatZones>()
        .AddTransient<ShowHouses>()
        .AddTransient<ReserveSpaces>()
        .AddTransient<PlaceByFirstFit>()
        .AddTransient<StartPlacing>()
        .AddTransient<RunPlacing>()
        .AddTransient<ShowPlacing>()
        .AddTransient<StartPlan>()
        .AddTransient<RunPlan>()
        .AddSingleton<BoundsProgram>()
        .AddTransient<ShowPlan>()
        .AddTransient<ShowPlanInForce>()
        .AddTransient<AcceptPlan>()
        .AddTransient<DropPlan>()
        .AddTransient<StopRun>()
        .AddTransient<BuryDeadRuns>()
        .AddTransient<MoveTrays>()
        .AddTransient<UndoReplan>()
        .AddTransient<SetSetpoint>()
        .AddTransient<TakeOutOfUse>()
        .AddTransient<GiveBack>()
        .AddTransient<ListOutages>()
        .AddTransient<ShowZone>()
        .AddTransient<RecordReadings>()
        .AddTransient<ImportReadings>()
        .AddTransient<ExportReadings>()
        .AddTransient<WatchZones>()
        .AddTransient<LearnZoneOffsets>()
        .AddTransient<ShowHeatAndLight>()
        .AddTransient<ListTasks>()
        .AddTransient<ShowLabour>()
        .AddTransient<ShowRound>()
        .AddTransient<RecordEntries>()
        .AddTransient<RebuildStates>()
        .AddTransient<RaiseTasks>()
        .AddTransient<ShowForecast>()
        .AddTransient<ListShortStands>()
        .AddTransient<PlanResow>()
        .AddTransient<ShowGermination>()
        .AddTransient<GerminationByKey>()
        .AddTransient<ExportGermination>()
        .AddTransient<PrintGermination>()
        .AddTransient<ExportReservations>()
        .AddTransient<ExportStandings>()
        .AddTransient<ExportTasks>()
        .AddTransient<ExportSetpoints>()
        .AddTransient<ExportLedger>()
        .AddTransient<PrintBenchTags>()
        .AddTransient<ListSowings>()
        .AddTransient<PrintSowingSheet>()
        .AddTransient<PrintMixSheet>()
        .AddTransient<PrintTrayTags>()
        .AddTransient<StartTagsRun>()
        .AddTransient<RunTags>()
        .AddTransient<ShowTagsRuns>()
        .AddTransient<FetchKeptPrint>()
        .AddTransient<ForgetPrints>()
        .AddTransient<PrintRoundSheet>()
        .AddTransient<PrintBenchPlan>()
        .AddTransient<PrintPlanTimeLine>()
        .AddTransient<PrintCarryList>()
        .AddTransient<PrintPickList>()
        .AddTransient<PrintPatchSheet>()
        .AddTransient<ShowRoundSheet>()
        .AddTransient<EnterRoundSheet>()
        .AddTransient<LoadScenario>()
        .AddTransient<LoadPast>()
        .AddSingleton<StartingCrops>()
        .AddSingleton<SetupLists>()
        .AddTransient<ShowSetupList>()
        .AddTransient<SaveSetupRow>()
        .AddTransient<RetireSetupRow>()
        .AddTransient<TakeBackSetupRow>()
        .AddTransient<ImportSetupList>()
        .AddTransient<ExportSetupList>()
        .AddTransient<ShowSetup>()
        .AddTransient<AddHouseOfBenches>()
        .AddTransient<GivePassword>()
        .AddTransient<ChangePassword>()
        .AddTransient<AddFirstPerson>()
        .AddTransient<ListApiKeys>()
        .AddTransient<RevokeApiKey>();
}
