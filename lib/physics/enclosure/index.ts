/** Shells, walls and drops: `import { enclosure } from "workings/physics"`. */
export {
  clipForce,
  clipStrain,
  conditionedModulus,
  creepModulus,
  creepModulusBetween,
  creptDeflection,
  moistureContent,
  relaxedForce,
} from "./creep-laws";
export {
  allowedStiffness,
  bossBendingStress,
  bossForce,
  bossStress,
  contactTime,
  dropEnergy,
  impactSpeed,
  measuredStiffness,
  padShapeFactor,
  padStiffness,
  peakDeceleration,
  peakForce,
  peakForceByEnergy,
  seriesStiffness,
  stiffnessAtTemperature,
  stoppingDistance,
  yieldAtTemperature,
  yieldShare,
} from "./drop-laws";
export {
  bendingStress,
  edgeFixity,
  elasticEdgeCoefficient,
  elasticEdgeMoment,
  patchEdgeNumber,
  pointClampedEdgeMoment,
  pointMoment,
  uniformClampedCentreMoment,
  uniformClampedEdgeMoment,
  uniformEdgeNumber,
  uniformMoment,
  uniformSupportedMoment,
  wallEdgeStiffness,
} from "./edge-laws";
export { equalRigidityWall, equalStiffnessMass, equalStiffnessWall, stiffnessPerMass } from "./material-laws";
export { clampedPatchDeflection, padTravel, shell, supportedPatchDeflection } from "./models";
export {
  centreStiffness,
  clampedPlateFrequency,
  flexuralRigidity,
  pointClampedCoefficient,
  pointDeflection,
  pointSupportedCoefficient,
  roundPatchSide,
  sideRatio,
  supportedPlateFrequency,
  uniformClampedCoefficient,
  uniformDeflection,
  uniformSupportedCoefficient,
} from "./plate-laws";
export { boreHoopStress, outerHoopStress, pressFitInterference, pressFitPressure } from "./press-laws";
export { ribbedCentroid, ribbedMassThickness, ribbedSecondMoment, ribbedThickness, ribStress } from "./rib-laws";
export {
  areaTimesWall,
  bossVolume,
  clearance,
  clipVolume,
  innerHeight,
  innerRadius,
  mass,
  roundedBoxArea,
  roundedBoxVolume,
  sharpShellVolume,
  stackHeight,
  swollenThickness,
} from "./shell-laws";
